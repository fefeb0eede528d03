import { describe, expect, it } from 'vitest';
import { millsRatio, normalDensity, normalShareBelow } from '../../src/numerics/normal.ts';

describe('the standard normal distribution', () => {
  it('has a density of 0.3989423 in the middle and 0.2419707 one deviation away', () => {
    expect(normalDensity(0)).toBeCloseTo(0.3989423, 7);
    expect(normalDensity(-1)).toBeCloseTo(0.2419707, 7);
  });

  // Abramowitz and Stegun (1964), table 26.1, from memory; the approximation errs by less than 7.5e-8.
  it.each([
    [0, 0.5],
    [1, 0.8413447],
    [1.96, 0.9750021],
    [-1, 0.1586553],
    [-3, 0.0013499],
  ])('has below %d a share of %d', (z, share) => {
    expect(Math.abs(normalShareBelow(z) - share)).toBeLessThan(1.3e-7);
  });

  it('has a tail that is the derivative of its share', () => {
    const slope = (normalShareBelow(0.7 + 1e-3) - normalShareBelow(0.7 - 1e-3)) / 2e-3;
    expect(slope).toBeCloseTo(normalDensity(0.7), 4);
  });

  it('has a share beyond z over its density that comes near 1 / z far out', () => {
    expect(millsRatio(8) * 8).toBeGreaterThan(1 - 1 / 8 ** 2);
    expect(millsRatio(8) * 8).toBeLessThan(1);
  });
});
