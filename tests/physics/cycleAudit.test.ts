import { describe, expect, it } from 'vitest';
import type { Fidelity } from '../../packages/core/src/assembly/symmetry.ts';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';
import { numbersIn, pointsOf } from './engines.ts';

/** Speeds below, at and above the torque peak. */
const RPM = [3000, 5500, 7500];

/** One run of the big block for all that is asked of it. */
const known = new Map<Fidelity, readonly MarchedPoint[]>();
function marched(fidelity: Fidelity): readonly MarchedPoint[] {
  const points = known.get(fidelity) ?? pointsOf(bigBlock(), RPM, { fidelity });
  known.set(fidelity, points);
  return points;
}

describe('the cycle that a forecast ends on', () => {
  it.each(['representative', 'all'] as const)(
    'repeats and closes its balances with %s cylinders',
    (fidelity) => {
      for (const point of marched(fidelity)) {
        expect(point.status, `${point.rpm}`).toBe('settled');
        expect(Math.abs(point.massClosure)).toBeLessThan(1e-4);
        expect(Math.abs(point.energyClosure)).toBeLessThan(1e-4);
        expect(point.cycles).toBeLessThanOrEqual(40);
        for (const [path, number] of numbersIn(point)) expect(number, path).toSatisfy(Number.isFinite);
      }
    },
  );

  it('is the same alone and after another speed', () => {
    const onTheWay = marched('representative')[1];
    expect(onTheWay).toEqual(pointsOf(bigBlock(), [onTheWay.rpm])[0]);
  });

  it('says so where it was not given the cycles to repeat', () => {
    const [point] = pointsOf(bigBlock(), [5500], { periodic: { maxCycles: 1, tolerance: 1e-12 } });
    expect(point.status).toBe('unsettled');
  });
});
