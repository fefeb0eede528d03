import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { findRoot } from '../../src/numerics/root.ts';

/** Problems of Alefeld, Potra and Shi, ACM Transactions on Mathematical Software 21 (1995) 327, table 1 (excerpt). */
const problems: readonly {
  name: string;
  f: (x: number) => number;
  a: number;
  b: number;
  root: number;
  most: number;
}[] = [
  {
    name: 'sin x - x / 2',
    f: (x) => Math.sin(x) - x / 2,
    a: Math.PI / 2,
    b: Math.PI,
    root: 1.895494267033981,
    most: 12,
  },
  { name: '-40 x exp(-x)', f: (x) => -40 * x * Math.exp(-x), a: -9, b: 31, root: 0, most: 30 },
  { name: 'x^4 - 0.2', f: (x) => x ** 4 - 0.2, a: 0, b: 5, root: 0.2 ** 0.25, most: 20 },
  { name: 'x^12 - 1', f: (x) => x ** 12 - 1, a: 0, b: 5, root: 1, most: 30 },
  {
    name: '2 x exp(-5) - 2 exp(-5 x) + 1',
    f: (x) => 2 * x * Math.exp(-5) - 2 * Math.exp(-5 * x) + 1,
    a: 0,
    b: 1,
    root: 0.1382571550568241,
    most: 14,
  },
  { name: 'x^2 - (1 - x)^5', f: (x) => x ** 2 - (1 - x) ** 5, a: 0, b: 1, root: 0.345954815848242, most: 14 },
  {
    name: '(x - 1) exp(-5 x) + x^5',
    f: (x) => (x - 1) * Math.exp(-5 * x) + x ** 5,
    a: 0,
    b: 1,
    root: 0.5161535187579336,
    most: 14,
  },
  {
    name: 'a square root with a corner at the end',
    f: (x) => Math.sqrt(x) - 0.01,
    a: 0,
    b: 1,
    root: 1e-4,
    most: 30,
  },
];

describe('findRoot(f, a, b)', () => {
  it.each(problems)('finds the root of $name within its budget of calls', ({ f, a, b, root, most }) => {
    const result = findRoot(f, a, b);
    expect(result.converged).toBe(true);
    expect(Math.abs(result.x - root)).toBeLessThan(1e-14 + 1e-14 * Math.abs(root));
    expect(result.evaluations).toBeLessThanOrEqual(most);
  });

  it('counts its calls', () => {
    let calls = 0;
    const result = findRoot(
      (x) => {
        calls += 1;
        return x ** 3 - 2;
      },
      0,
      2,
    );
    expect(result.evaluations).toBe(calls);
  });

  it('stops at the tolerance asked for, with a bracket no longer than it', () => {
    const coarse = findRoot(Math.cos, 1, 2, { tolerance: 1e-3 });
    const fine = findRoot(Math.cos, 1, 2);
    expect(coarse.bracket[1] - coarse.bracket[0]).toBeLessThanOrEqual(1e-3);
    expect(coarse.evaluations).toBeLessThan(fine.evaluations);
    expect(fine.x).toBeCloseTo(Math.PI / 2, 15);
  });

  it('returns an end that is the root', () => {
    expect(findRoot((x) => x - 1, 1, 3)).toMatchObject({ x: 1, residual: 0, bracket: [1, 1] });
    expect(findRoot((x) => x - 3, 1, 3)).toMatchObject({ x: 3, residual: 0, bracket: [3, 3] });
  });

  it('takes the ends in either order', () => {
    expect(findRoot((x) => x * x - 2, 2, 0).x).toBeCloseTo(Math.SQRT2, 15);
  });

  it('returns the bracket so far when the calls run out', () => {
    const result = findRoot((x) => x ** 9 - 1e-3, 0, 100, { maxEvaluations: 5 });
    expect(result.converged).toBe(false);
    expect(result.evaluations).toBe(5);
    expect(result.bracket[0]).toBeLessThanOrEqual(1e-3 ** (1 / 9));
    expect(result.bracket[1]).toBeGreaterThanOrEqual(1e-3 ** (1 / 9));
  });

  it('refuses a bracket without a change of sign and says what it saw', () => {
    expect(() => findRoot((x) => x * x + 1, -1, 2)).toThrow(DomainError);
    expect(() => findRoot((x) => x * x + 1, -1, 2)).toThrow('f = 2, 5');
  });

  it('refuses what is not a number', () => {
    expect(() => findRoot((x) => x, Number.NaN, 1)).toThrow('a must be finite');
    expect(() => findRoot((x) => x, -1, Number.POSITIVE_INFINITY)).toThrow('b must be finite');
    expect(() => findRoot((x) => (x > 0.4 && x < 0.6 ? Number.NaN : x - 0.5), 0, 1)).toThrow('a number');
  });

  it('never needs many more calls than halving, whatever the shape', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.integer({ min: 1, max: 41 }),
        (root, power) => {
          const result = findRoot((x) => Math.sign(x - root) * Math.abs(x - root) ** power, 0, 1);
          expect(Math.abs(result.x - root)).toBeLessThan(1e-6);
          expect(result.evaluations).toBeLessThan(130);
        },
      ),
    );
  });
});
