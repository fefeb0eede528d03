import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  linearTable,
  lookUp,
  lookUpPeriodic,
  monotoneCubic,
  type UniformTable,
} from '../../src/numerics/interpolate.ts';

describe('linearTable(x, y, outOfRange)', () => {
  it('runs straight between its points', () => {
    const table = linearTable([0, 2, 3], [1, 5, 4]);
    expect(table.valueAt(0.5)).toBe(2);
    expect(table.derivativeAt(0.5)).toBe(2);
    expect(table.valueAt(2)).toBe(5);
    expect(table.valueAt(2.5)).toBe(4.5);
    expect(table.valueAt(3)).toBe(4);
  });

  it('holds, extends or refuses outside, as asked', () => {
    expect(linearTable([0, 1], [1, 3], 'hold').valueAt(2)).toBe(3);
    expect(linearTable([0, 1], [1, 3], 'hold').derivativeAt(2)).toBe(0);
    expect(linearTable([0, 1], [1, 3], 'extend').valueAt(2)).toBe(5);
    expect(linearTable([0, 1], [1, 3], 'extend').valueAt(-1)).toBe(-1);
    expect(() => linearTable([0, 1], [1, 3], 'throw').valueAt(2)).toThrow('x must be in [0, 1], got 2');
    expect(() => linearTable([0, 1], [1, 3]).valueAt(Number.NaN)).toThrow('got NaN');
  });

  it('names the entry that is not rising or not finite', () => {
    expect(() => linearTable([0, 0], [1, 3])).toThrow('x[1] must be finite and rising, got 0');
    expect(() => linearTable([0, 1], [1, Number.NaN])).toThrow('y[1] must be finite, got NaN');
    expect(() => linearTable([0, 1], [1])).toThrow('y must be as many entries as x, 2, got 1');
    expect(() => linearTable([0], [1])).toThrow('x must be at least 2 entries, got 1');
  });
});

describe('monotoneCubic(x, y, outOfRange)', () => {
  it('reproduces a parabola away from its extremum', () => {
    const x = [1, 1.5, 2.5, 3];
    const curve = monotoneCubic(
      x,
      x.map((v) => v * v),
    );
    expect(curve.valueAt(2)).toBeCloseTo(4, 12);
    expect(curve.derivativeAt(2)).toBeCloseTo(4, 12);
    expect(curve.valueAt(1.2)).toBeCloseTo(1.44, 12);
  });

  it('is third-order accurate on smooth monotone data', () => {
    const error = (intervals: number): number => {
      const x = Array.from({ length: intervals + 1 }, (_, i) => i / intervals);
      const curve = monotoneCubic(x, x.map(Math.exp));
      let worst = 0;
      for (let i = 0; i <= 997; i++)
        worst = Math.max(worst, Math.abs(curve.valueAt(i / 997) - Math.exp(i / 997)));
      return worst;
    };
    expect(Math.log2(error(20) / error(40))).toBeGreaterThan(2.7);
  });

  it('never leaves the range of its neighbours, whatever the points', () => {
    const steps = fc.array(
      fc.tuple(fc.double({ min: 0.01, max: 10, noNaN: true }), fc.double({ min: -5, max: 5, noNaN: true })),
      { minLength: 2, maxLength: 12 },
    );
    fc.assert(
      fc.property(steps, fc.double({ min: 0, max: 1, noNaN: true }), (pairs, share) => {
        let at = 0;
        const x = pairs.map(([dx]) => (at += dx));
        const y = pairs.map(([, value]) => value);
        const curve = monotoneCubic(x, y);
        for (let i = 0; i + 1 < x.length; i++) {
          const value = curve.valueAt(x[i] + share * (x[i + 1] - x[i]));
          expect(value).toBeGreaterThanOrEqual(Math.min(y[i], y[i + 1]) - 1e-12);
          expect(value).toBeLessThanOrEqual(Math.max(y[i], y[i + 1]) + 1e-12);
        }
      }),
    );
  });

  it('rises between rising points', () => {
    // Data with a sudden rise, the kind on which an ordinary cubic spline overshoots (Fritsch and Carlson's theme).
    const curve = monotoneCubic([0, 1, 2, 3, 4, 5], [0, 0, 0.01, 0.99, 1, 1]);
    let before = 0;
    for (let i = 0; i <= 500; i++) {
      const value = curve.valueAt(i / 100);
      expect(value).toBeGreaterThanOrEqual(before - 1e-15);
      before = value;
    }
  });

  it('has the slope that differences of its value show', () => {
    const curve = monotoneCubic([0, 1, 3, 4, 7], [0, 2, 3, 3.5, 1], 'extend');
    for (const at of [-1, 0.3, 1.7, 3.9, 5, 8]) {
      const difference = (curve.valueAt(at + 1e-6) - curve.valueAt(at - 1e-6)) / 2e-6;
      expect(curve.derivativeAt(at)).toBeCloseTo(difference, 6);
    }
  });
});

/** A function at equal steps. */
function uniformTable(f: (x: number) => number, from: number, to: number, steps: number): UniformTable {
  const step = (to - from) / steps;
  return { from, step, values: Float64Array.from({ length: steps + 1 }, (_, i) => f(from + i * step)) };
}

describe('lookUp(table, x)', () => {
  it('agrees with the function within the stated error', () => {
    const table = uniformTable(Math.sin, 0, 3, 300);
    for (let i = 0; i <= 1000; i++) {
      expect(Math.abs(lookUp(table, (3 * i) / 1000) - Math.sin((3 * i) / 1000))).toBeLessThan(0.01 ** 2 / 8);
    }
  });

  it('holds its ends', () => {
    const table = uniformTable((x) => x, 1, 2, 4);
    expect(lookUp(table, 0)).toBe(1);
    expect(lookUp(table, 9)).toBe(2);
    expect(lookUp(table, 2)).toBe(2);
  });
});

describe('lookUpPeriodic(table, x)', () => {
  it('wraps round in both directions', () => {
    const table = { from: 0, step: 90, values: Float64Array.of(0, 1, 0, -1) };
    expect(lookUpPeriodic(table, 45)).toBe(0.5);
    expect(lookUpPeriodic(table, 315)).toBe(-0.5);
    expect(lookUpPeriodic(table, 405)).toBe(0.5);
    expect(lookUpPeriodic(table, -45)).toBe(-0.5);
    expect(lookUpPeriodic(table, 360)).toBe(0);
    expect(lookUpPeriodic(table, -1e-15)).toBeCloseTo(0, 12);
  });
});
