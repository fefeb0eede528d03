import { describe, expect, it } from 'vitest';
import { meanScatterOf, scatterOf } from '../../src/forecast/cycleScatter.ts';
import { altered, curveOf } from '../studies/fakeCurves.ts';

/** Two speeds, one of them unsettled: strokes of 10 + 1 bar that scatter by 2 % leave 8 bar at the crank. */
function points(): Parameters<typeof meanScatterOf>[0] {
  const gas = { imepBar: 10, pmepBar: -1, bmepBar: 8 };
  const curve = altered(
    curveOf([3000, 6000], () => 100),
    ({ rpm }) => (rpm === 3000 ? { ...gas, status: 'unsettled', scatterPct: 2 } : gas),
  );
  return curve.points.filter((point) => point.status !== 'lost');
}

describe('scatter from cycle to cycle', () => {
  it('is larger in torque than in the work of the strokes, which friction makes smaller', () => {
    const [unsettled, settled] = points();
    expect(scatterOf(unsettled)).toBeCloseTo((0.02 * 11) / 8, 12);
    expect(scatterOf(settled)).toBe(0);
  });

  it('is an error in mean power by the share of the speeds that have it', () => {
    // The same torque at half the speed is half the power: a third of both together.
    expect(meanScatterOf(points())).toBeCloseTo((0.02 * 11) / 8 / 3, 12);
    expect(meanScatterOf(points().slice(1))).toBe(0);
  });

  it('stays a number where there is hardly any torque to have a share of', () => {
    const [unsettled] = points();
    expect(scatterOf({ ...unsettled, bmepBar: 0 })).toBeCloseTo((0.02 * 11) / 0.05, 12);
    expect(scatterOf({ ...unsettled, bmepBar: -8 })).toBe(scatterOf(unsettled));
  });
});
