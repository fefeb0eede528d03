import { describe, expect, it } from 'vitest';
import { peakValue } from '../../src/studies/peak.ts';

describe('peakValue(points)', () => {
  it('finds the top of a parabola between its points', () => {
    const parabola = (x: number): number => 300 - (x - 4.3) ** 2;
    expect(peakValue([2, 4, 5, 7].map((x) => ({ x, y: parabola(x) })))).toBeCloseTo(300, 9);
  });

  it('takes the highest point where that is the first or last, or stands alone', () => {
    expect(peakValue([1, 2, 3].map((x) => ({ x, y: x * x })))).toBe(9);
    expect(peakValue([{ x: 1, y: 5 }])).toBe(5);
  });
});
