import { beforeAll, describe, expect, it } from 'vitest';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { comparedPointsOf, engineFile, withLongerCam } from '../physics/engines.ts';

type Enlargement = (engine: Combination) => Combination;

const port: Enlargement = (engine) => {
  const { intake, induction } = engine;
  const { runner } = induction;
  return {
    ...engine,
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
  };
};
const cam: Enlargement = (engine) => ({
  ...engine,
  intake: withLongerCam(engine.intake, 25),
  exhaust: withLongerCam(engine.exhaust, 25),
});
const lateClosing: Enlargement = (engine) => ({
  ...engine,
  intake: { ...engine.intake, centreline: engine.intake.centreline + 10 },
});
const primary: Enlargement = (engine) => {
  const { exhaustSystem } = engine;
  return {
    ...engine,
    exhaustSystem: {
      ...exhaustSystem,
      primary: { ...exhaustSystem.primary, area: 1.6 * exhaustSystem.primary.area },
    },
  };
};

/** Another rating with the venturis and the throttle bores that go with it. */
function carburetor(engine: Combination, times: number): Combination {
  const { barrels, venturiArea, meteringArea } = engine.induction;
  if (barrels === undefined || venturiArea === undefined) throw new TypeError('no carburetor over a plenum');
  const wider = {
    meteringArea: times * meteringArea,
    venturiArea: times * venturiArea,
    barrels: { length: Math.sqrt(times) * barrels.length, area: times * barrels.area },
  };
  return { ...engine, induction: { ...engine.induction, ...wider } };
}

const ENLARGEMENTS: readonly (readonly [part: string, change: Enlargement])[] = [
  ['a port and runner of half as much area again', port],
  ['a cam of 25 degrees more on both lobes', cam],
  ['an intake cam ten degrees later', lateClosing],
  ['a primary of 1.6 times the area', primary],
];

/** Sum over speeds: at one speed alone a part may gain because it moves a tuned dip. */
const torqueOver = (engine: Combination, rpm: readonly number[]): number =>
  comparedPointsOf(engine, rpm).reduce((sum, p) => sum + p.torqueNm, 0);

describe('what must be able to lose, on a street engine at low speed', () => {
  // Its torque peaks near 3800 rpm.
  const LOW = [2000, 2500, 3000, 3500];
  const TOP = 6000;
  let engine: Combination;
  let low = Number.NaN;
  let top = Number.NaN;
  beforeAll(() => {
    engine = engineFile('tests/data/engines/street-350.yaml');
    low = torqueOver(engine, LOW);
    top = torqueOver(engine, [TOP]);
  }, 300_000);

  it.each(ENLARGEMENTS)('%s costs torque', (_part, change) => {
    expect(torqueOver(change(engine), LOW)).toBeLessThan(0.995 * low);
  });

  it.each(ENLARGEMENTS.slice(0, 3))('%s pays at the top for what it costs below', (_part, change) => {
    expect(torqueOver(change(engine), [TOP])).toBeGreaterThan(1.01 * top);
  });

  it('a carburetor of two and a half times the size costs torque', () => {
    expect(torqueOver(carburetor(engine, 2.5), LOW)).toBeLessThan(0.99 * low);
  });

  it('one of half as much again costs torque where it is least drawn through, and gives power', () => {
    const slow = [2000, 2500, 3000];
    expect(torqueOver(carburetor(engine, 1.5), slow)).toBeLessThan(0.995 * torqueOver(engine, slow));
    expect(torqueOver(carburetor(engine, 1.5), [TOP])).toBeGreaterThan(1.003 * top);
  });

  it('one of two thirds costs power', () => {
    expect(torqueOver(carburetor(engine, 2 / 3), [TOP])).toBeLessThan(0.98 * top);
  });
});

describe('what must be able to lose, on a race engine below its torque peak', () => {
  // Its torque peaks at 6000 rpm.
  const BELOW_PEAK = [2000, 3250, 4500];
  let before = Number.NaN;
  beforeAll(() => {
    before = torqueOver(bigBlock(), BELOW_PEAK);
  }, 300_000);

  it.each(ENLARGEMENTS)('%s costs torque', (_part, change) => {
    expect(torqueOver(change(bigBlock()), BELOW_PEAK)).toBeLessThan(0.995 * before);
  });

  it('a longer cam pays far above the peak for what it costs below', () => {
    expect(torqueOver(cam(bigBlock()), [8500])).toBeGreaterThan(1.01 * torqueOver(bigBlock(), [8500]));
  });
});
