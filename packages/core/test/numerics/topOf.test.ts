import { describe, expect, it } from 'vitest';
import { topBetween, topOf } from '../../src/numerics/topOf.ts';

describe('topOf(points)', () => {
  it('finds the top of a parabola between its points', () => {
    const parabola = (x: number): number => 300 - (x - 4.3) ** 2;
    const top = topOf([2, 4, 5, 7].map((x) => ({ x, y: parabola(x) })));
    expect(top.y).toBeCloseTo(300, 9);
    expect(top.x).toBeCloseTo(4.3, 9);
  });

  it('takes the highest point where that is the first or last, or stands alone', () => {
    expect(topOf([1, 2, 3].map((x) => ({ x, y: x * x })))).toEqual({ x: 3, y: 9 });
    expect(topOf([{ x: 1, y: 5 }])).toEqual({ x: 1, y: 5 });
  });
});

describe('topBetween(before, here, after)', () => {
  it('finds the top of a parabola in steps from the middle value', () => {
    const parabola = (x: number): number => 300 - 7 * (x - 4.3) ** 2;
    expect(topBetween(parabola(3), parabola(4), parabola(5))).toBeCloseTo(0.3, 12);
    expect(topBetween(parabola(4), parabola(5), parabola(6))).toBeCloseTo(-0.7, 12);
  });

  it('finds none where the values bend upward, or lie on a line', () => {
    expect(topBetween(4, 1, 4)).toBe(null);
    expect(topBetween(1, 2, 3)).toBe(null);
    expect(topBetween(Number.NaN, 2, 3)).toBe(null);
  });
});
