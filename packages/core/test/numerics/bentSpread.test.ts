import { Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { bentSpread } from '../../src/numerics/bentSpread.ts';

describe('bentSpread(fit)', () => {
  // (1 + S'S)^-1 of one figure that both unknowns move alike, worked by hand: a third of [[2, -1], [-1, 2]].
  it('is the covariance of the fit where the effect is straight', () => {
    const spread = bentSpread({
      slopes: new Matrix([[1, 1]]),
      off: [0, 0],
      bent: 0,
      residuals: (move) => [move],
    });
    expect(spread.get(0, 0)).toBeCloseTo(2 / 3, 5);
    expect(spread.get(0, 1)).toBeCloseTo(-1 / 3, 5);
    expect(spread.get(1, 1)).toBeCloseTo(2 / 3, 5);
  });

  it('is what was believed where the figures say nothing', () => {
    const spread = bentSpread({ slopes: new Matrix([[0, 0]]), off: [0, 0], bent: 1, residuals: () => [0] });
    expect(spread.get(0, 0)).toBeCloseTo(1, 5);
    expect(spread.get(1, 1)).toBeCloseTo(1, 4);
    expect(spread.get(0, 1)).toBeCloseTo(0, 9);
  });

  it('is less than the slope says where the effect grows with the move', () => {
    // At the place of the fit the figure does not move at all, and two deviations away by four of its own.
    const spread = bentSpread({
      slopes: new Matrix([[0, 0]]),
      off: [0, 0],
      bent: 0,
      residuals: (move) => [move * move],
    });
    expect(spread.get(0, 0)).toBeLessThan(0.5);
    expect(spread.get(1, 1)).toBeCloseTo(1, 5);
  });
});
