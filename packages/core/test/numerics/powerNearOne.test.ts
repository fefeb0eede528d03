import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { powerNearOne } from '../../src/numerics/powerNearOne.ts';

describe('powerNearOne(x, k)', () => {
  it('is 1.1^5 = 1.61051', () => expect(powerNearOne(1.1, 5)).toBeCloseTo(1.61051, 9));
  it('agrees with the general power within 1e-9, inside its range and out of it', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: -12, max: 12, noNaN: true }),
        (x, k) => Math.abs(powerNearOne(x, k) / x ** k - 1) < 1e-9,
      ),
      { numRuns: 5000 },
    ));
});
