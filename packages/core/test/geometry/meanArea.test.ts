import { describe, expect, it } from 'vitest';
import { buildLobe } from '../../src/geometry/lobe.ts';
import { areaOverPeriod, inletMachIndex } from '../../src/geometry/meanArea.ts';
import { valveLift } from '../../src/geometry/valveLift.ts';
import { liftArea } from './lobeMeasures.ts';

const valve = () => {
  const angle = Array.from({ length: 141 }, (_, i) => (i - 70) * 2);
  const lift = angle.map((at) => 0.005 * (1 + Math.cos((Math.PI * at) / 140)));
  return valveLift(
    buildLobe({ kind: 'table', angle, lift }),
    { rockerRatio: 1, lash: 0, deflection: 0 },
    466,
  );
};

describe('areaOverPeriod(valve, areaAt)', () => {
  it('is half the full area for an area in proportion to the lift of a raised cosine', () => {
    const result = areaOverPeriod(valve(), (lift) => 0.1 * lift);
    expect(result.openDuration).toBeCloseTo(280, 9);
    expect(result.mean / (0.1 * 0.01)).toBeCloseTo(0.5, 4);
    expect(result.areaAngle).toBeCloseTo(0.1 * liftArea(valve()), 12);
  });

  it('is the area itself for a valve that is fully effective as soon as it opens', () => {
    expect(areaOverPeriod(valve(), (lift) => (lift > 0 ? 1e-3 : 0)).mean / 1e-3).toBeCloseTo(1, 2);
  });
});

describe('inletMachIndex(pistonArea, meanPistonSpeed, meanArea, soundSpeed)', () => {
  it('is 0.5 for a piston area 8.5 times the mean valve area at 20 m/s and 340 m/s', () => {
    expect(inletMachIndex(8.5e-3, 20, 1e-3, 340)).toBeCloseTo(0.5, 12);
    expect(() => inletMachIndex(1, 1, 0, 340)).toThrow('meanArea must be positive m2, got 0');
  });
});
