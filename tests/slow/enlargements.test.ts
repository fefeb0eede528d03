import { beforeAll, describe, expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { pointsOf, withLongerCam } from '../physics/engines.ts';

/*
 * The engine's torque peaks at 6000 rpm. An average over speeds below it tells what a change costs there, waves aside:
 * at one speed alone a part may gain because it moves a tuned dip.
 */
const BELOW_PEAK = [2000, 2500, 3000, 3500, 4000, 4500, 5000];

function torqueBelowPeak(engine: Combination): number {
  return pointsOf(engine, BELOW_PEAK).reduce((sum, p) => sum + p.torqueNm, 0);
}

const base = (): Combination => bigBlock();

const ENLARGEMENTS: readonly { readonly part: string; readonly change: () => Combination }[] = [
  {
    part: 'a port and runner of half as much area again',
    change: () => {
      const { intake, induction } = base();
      const { runner } = induction;
      return bigBlock({
        intake: { ...intake, portArea: 1.5 * intake.portArea },
        induction: {
          ...induction,
          runner: {
            ...runner,
            entryArea: 1.5 * runner.entryArea,
            exitArea: 1.5 * runner.exitArea,
            mouthArea: 1.5 * runner.mouthArea,
          },
        },
      });
    },
  },
  {
    part: 'a cam of 25 degrees more on both lobes',
    change: () =>
      bigBlock({ intake: withLongerCam(base().intake, 25), exhaust: withLongerCam(base().exhaust, 25) }),
  },
  {
    part: 'an intake cam ten degrees later',
    change: () => bigBlock({ intake: { ...base().intake, centreline: base().intake.centreline + 10 } }),
  },
  {
    part: 'a primary of 1.6 times the area',
    change: () => {
      const { exhaustSystem } = base();
      const { primary } = exhaustSystem;
      return bigBlock({
        exhaustSystem: { ...exhaustSystem, primary: { ...primary, area: 1.6 * primary.area } },
      });
    },
  },
];

describe('what must be able to lose', () => {
  let before = Number.NaN;
  beforeAll(() => {
    before = torqueBelowPeak(base());
  }, 300_000);

  it.each(ENLARGEMENTS)('$part costs torque below the peak', ({ change }) => {
    expect(torqueBelowPeak(change())).toBeLessThan(0.995 * before);
  });

  it('a longer cam pays far above the peak for what it costs below', () => {
    const longer = bigBlock({
      intake: withLongerCam(base().intake, 25),
      exhaust: withLongerCam(base().exhaust, 25),
    });
    expect(pointsOf(longer, [8500])[0].torqueNm).toBeGreaterThan(1.01 * pointsOf(base(), [8500])[0].torqueNm);
  });
});
