import { describe, expect, it } from 'vitest';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import { engineFile, numbersIn } from './engines.ts';

interface Expected {
  readonly example: string;
  /** Near the torque peak, and above. */
  readonly rpm: readonly number[];
  /** Where the best of these speeds should lie: volumetric efficiency [-], BMEP [bar]. */
  readonly filling: readonly [number, number];
  readonly bmep: readonly [number, number];
}

/*
 * Common practice, no source. Volumetric efficiency at the torque peak: production rarely above 0.90, a good two-valve
 * 0.95 to 1.00, full race 1.10, practical limit 1.15. Brake mean effective pressure: production two-valve 10.4 to 11.9 bar, hot
 * street to 13.4, contest on pump fuel to 15.
 */
const EXPECTED: readonly Expected[] = [
  { example: 'minimum', rpm: [4500, 6000], filling: [0.75, 1], bmep: [8.5, 12] },
  { example: 'tow-truck', rpm: [2750, 4750], filling: [0.8, 1], bmep: [10, 13.4] },
  { example: 'hill-climb', rpm: [5000, 7000], filling: [0.85, 1.05], bmep: [10, 13.4] },
  { example: 'club-racer', rpm: [5500, 7500], filling: [0.9, 1.15], bmep: [11, 14.5] },
  { example: 'scrambler', rpm: [4000, 7000], filling: [0.75, 1], bmep: [8.5, 12] },
];

describe.each(EXPECTED)('the example $example', ({ example, rpm, filling, bmep }) => {
  it('gives a curve of believable figures, all finite', () => {
    const curve = wholeForecast(engineFile(`examples/${example}/engine.yaml`), { rpm });
    for (const [path, number] of numbersIn(curve)) expect(number, path).toSatisfy(Number.isFinite);
    for (const point of curve.points) {
      expect(point.status, `${point.rpm}`).toBe('settled');
      // From an excellent race engine to a street engine past its power peak: 0.38 to 0.58 lb/hp-h.
      expect(point.bsfcGPerKwh).toBeGreaterThan(231);
      expect(point.bsfcGPerKwh).toBeLessThan(353);
      expect(point.residualFraction).toBeGreaterThan(0);
      expect(point.residualFraction).toBeLessThan(0.2);
    }
    const best = (of: 'volumetricEfficiency' | 'bmepBar') => Math.max(...curve.points.map((p) => p[of]));
    expect(best('volumetricEfficiency')).toBeGreaterThan(filling[0]);
    expect(best('volumetricEfficiency')).toBeLessThan(filling[1]);
    expect(best('bmepBar')).toBeGreaterThan(bmep[0]);
    expect(best('bmepBar')).toBeLessThan(bmep[1]);
  });
});
