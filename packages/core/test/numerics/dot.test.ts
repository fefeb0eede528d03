import { describe, expect, it } from 'vitest';
import { dot } from '../../src/numerics/dot.ts';

describe('dot(a, b)', () => {
  it('sums the products of entries at equal places', () => {
    expect(dot(Float64Array.of(1, -2, 3), Float64Array.of(4, 5, 6))).toBe(12);
  });

  it('is zero for vectors at right angles, and of none', () => {
    expect(dot(Float64Array.of(3, 4), Float64Array.of(-4, 3))).toBe(0);
    expect(dot(new Float64Array(0), new Float64Array(0))).toBe(0);
  });
});
