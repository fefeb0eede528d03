import { describe, expect, it } from 'vitest';
import { expLessOne, logOfOneMore } from '../../src/numerics/expAndLogNearZero.ts';

const sizes = Array.from({ length: 37 }, (_, i) => 10 ** (-17 + i / 2)).flatMap((x) => [x, 1.7 * x]);

describe('near zero', () => {
  it('exp(x) - 1 is right to a few roundings, on either side', () => {
    for (const x of [...sizes, ...sizes.map((size) => -size)])
      expect(Math.abs(expLessOne(x) / Math.expm1(x) - 1), String(x)).toBeLessThan(2e-15);
    // x + x^2 / 2 + x^3 / 6
    expect(expLessOne(1e-5)).toBeCloseTo(1.000005000016667e-5, 20);
    expect(expLessOne(0)).toBe(0);
    expect(expLessOne(-800)).toBe(-1);
    expect(expLessOne(800)).toBe(Number.POSITIVE_INFINITY);
    expect(expLessOne(Number.NaN)).toBeNaN();
  });

  it('ln(1 + x) is, too', () => {
    for (const x of [...sizes, ...sizes.filter((size) => size < 1).map((size) => -size)])
      expect(Math.abs(logOfOneMore(x) / Math.log1p(x) - 1), String(x)).toBeLessThan(2e-15);
    // x - x^2 / 2 + x^3 / 3
    expect(logOfOneMore(1e-5)).toBeCloseTo(9.999950000333332e-6, 20);
    expect(logOfOneMore(0)).toBe(0);
    expect(logOfOneMore(-1)).toBe(Number.NEGATIVE_INFINITY);
    expect(logOfOneMore(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(logOfOneMore(-2)).toBeNaN();
  });
});
