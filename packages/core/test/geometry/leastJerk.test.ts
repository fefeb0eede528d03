import { describe, expect, it } from 'vitest';
import { leastJerkHump } from '../../src/geometry/leastJerk.ts';

const slope = (n: number) => Float64Array.from({ length: n }, (_, k) => (k === n - 1 ? 0.5 : 1) / n);

describe('leastJerkHump(rows, wanted)', () => {
  it('with one sum to keep is the parabola that ends level', () => {
    // Least squared slope of a(t) with a(0) = 0 and a given integral: a = 3 (t - t^2/2), by the Euler-Lagrange equation.
    const n = 200;
    const a = leastJerkHump([slope(n)], [1]);
    expect(a).not.toBeNull();
    a?.forEach((value, k) => {
      const t = (k + 1) / n;
      expect(value).toBeCloseTo(3 * (t - (t * t) / 2), 3);
    });
  });

  it('keeps positive before negative where the free answer would not', () => {
    // Integral over the first half, over the third quarter and over all: wants minus, plus, minus if left free.
    const n = 40;
    const part = (from: number, to: number) =>
      Float64Array.from({ length: n }, (_, k) => (k >= from && k < to ? 1 / n : 0));
    const rows = [part(0, 10), part(10, 20), slope(n)];
    const a = leastJerkHump(rows, [0.002, 0.3, 0]);
    expect(a).not.toBeNull();
    if (a === null) return;
    rows.forEach((row, r) => {
      expect(row.reduce((sum, w, i) => sum + w * a[i], 0)).toBeCloseTo([0.002, 0.3, 0][r], 8);
    });
    const firstNegative = a.findIndex((value) => value < 0);
    expect(a.every((value, i) => (i < firstNegative ? value >= 0 : value <= 0))).toBe(true);
    // Bounded least squares by another program, over every place the sign may turn: least with 25 positive, 0.910014; next 0.910098.
    expect(firstNegative).toBe(25);
    const jerk = a.reduce((sum, value, i) => sum + (value - (i > 0 ? a[i - 1] : 0)) ** 2, 0);
    expect(jerk).toBeCloseTo(0.910014, 6);
  });

  it('is null where no such accelerations exist, and where two wishes are the same', () => {
    const n = 20;
    const start = Float64Array.from({ length: n }, (_, k) => (k < 5 ? 1 / n : 0));
    expect(leastJerkHump([start, slope(n)], [-0.5, 0.5])).toBeNull();
    expect(leastJerkHump([slope(n), slope(n)], [1, 2])).toBeNull();
  });
});
