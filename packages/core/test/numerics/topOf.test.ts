import { describe, expect, it } from 'vitest';
import { topOf } from '../../src/numerics/topOf.ts';

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
