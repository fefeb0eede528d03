import { describe, expect, it } from 'vitest';
import { leastCombination } from '../../src/numerics/leastCombination.ts';

const vectors = (...of: readonly (readonly number[])[]) => of.map((v) => Float64Array.from(v));

describe('the shortest combination of vectors', () => {
  it('is the foot of the perpendicular on the line through two', () => {
    // From (0, 2) to (2, 0): nearest to the origin at (1, 1), length sqrt 2 of the last vector's 2.
    const found = leastCombination(vectors([0, 2], [2, 0]));
    expect(found?.shares[0]).toBeCloseTo(0.5, 14);
    expect(found?.shares[1]).toBeCloseTo(0.5, 14);
    expect(found?.left).toBeCloseTo(Math.SQRT1_2, 14);
  });

  it('ends where one mode that keeps 0.72 a cycle ends', () => {
    // Changes of a cycle d, 0.72 d: nothing is left at shares -0.72/0.28 and 1/0.28.
    const found = leastCombination(vectors([1, -3], [0.72, -2.16]));
    expect(found?.shares[1]).toBeCloseTo(1 / 0.28, 12);
    expect(found?.left).toBeLessThan(1e-12);
  });

  it('takes two modes from three changes, and leaves out an oldest that adds none', () => {
    const change = (k: number) => [0.8 ** k + 0.5 ** k, 0.8 ** k - 0.5 ** k, 0.3 * 0.5 ** k];
    const two = leastCombination(vectors(change(0), change(1), change(2)));
    expect(two?.left).toBeLessThan(1e-12);
    expect(two?.shares.reduce((s, v) => s + v, 0)).toBeCloseTo(1, 12);
    const four = leastCombination(vectors(change(0), change(1), change(2), change(3)));
    expect(four?.shares[0]).toBe(0);
    expect(four?.left).toBeLessThan(1e-12);
  });

  it('says nothing of a single vector, or of two that are the same', () => {
    expect(leastCombination(vectors([1, 2]))).toBeNull();
    expect(leastCombination(vectors([1, 2], [1, 2]))).toBeNull();
  });
});
