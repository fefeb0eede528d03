import { describe, expect, it } from 'vitest';
import { sprayEvaporated } from '../../src/processes/sprayEvaporation.ts';

describe('a spray of drops of many sizes', () => {
  // Volumes as d^5 exp(-5 d): the mean of 1/d^2 is 25 x 3!/5! = 1.25, and 1 - (1 - x/d^2)^1.5 begins as 1.5 x/d^2.
  it('begins to evaporate 1.875 times what the square of its mean diameter loses', () => {
    expect(sprayEvaporated(1e-3) / 1e-3).toBeCloseTo(1.875, 2);
  });

  it('is gone by half where a drop of its mean size is by more, and keeps its largest longest', () => {
    expect(sprayEvaporated(0.4049)).toBeCloseTo(0.5, 4);
    expect(1 - (1 - 0.4049) ** 1.5).toBeGreaterThan(0.53);
    // By a sum of 20 000 sizes up to ten mean diameters.
    expect(Math.abs(sprayEvaporated(1) - 0.78749)).toBeLessThan(1e-4);
  });

  it('evaporates the more the longer it takes, from nothing to all', () => {
    const shares = [0, 0.1, 0.2, 0.5, 1, 2, 4, 20].map(sprayEvaporated);
    expect(shares[0]).toBe(0);
    for (const [i, share] of shares.entries()) if (i > 0) expect(share).toBeGreaterThan(shares[i - 1]);
    expect(shares.at(-1)).toBeCloseTo(1, 3);
  });
});
