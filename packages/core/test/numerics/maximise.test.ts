import { describe, expect, it } from 'vitest';
import { maximise } from '../../src/numerics/maximise.ts';

describe('maximise(f, low, high, tolerance)', () => {
  it('finds the top of x exp(-x), 1/e at 1, with few looks', () => {
    const { x, value, evaluations } = maximise((at) => at * Math.exp(-at), 0, 5, 1e-6);
    expect(Math.abs(x - 1)).toBeLessThan(3e-6);
    expect(value).toBeCloseTo(Math.exp(-1), 11);
    expect(evaluations).toBeLessThan(20);
  });

  it('finds a corner, where no parabola helps', () => {
    const { x } = maximise((at) => -Math.abs(at - 0.3), 0, 1, 1e-5);
    expect(Math.abs(x - 0.3)).toBeLessThan(3e-5);
  });

  it('comes as near as the tolerance to the end that a rising function is largest at', () => {
    expect(1 - maximise((at) => at, 0, 1, 1e-4).x).toBeLessThan(3e-4);
  });

  it('refuses an empty interval and no tolerance', () => {
    expect(() => maximise(Math.sin, 1, 1, 1e-3)).toThrow('high must be above low = 1');
    expect(() => maximise(Math.sin, 0, 1, 0)).toThrow('tolerance must be positive');
  });
});
