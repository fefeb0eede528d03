import { describe, expect, it } from 'vitest';
import { BELIEVED_ERROR, pooledError } from '../../../../tests/published/believedError.ts';
import { MODEL_ERRORS } from '../../src/forecast/modelError.ts';

describe('pooledError(believed, misses, engines)', () => {
  it('is the belief where nothing was seen, and the misses where next to nothing was believed', () => {
    expect(pooledError(0.05, [], 4)).toBe(0.05);
    expect(pooledError(0.05, [0.03, -0.03], 1e-12)).toBeCloseTo(0.03, 12);
  });

  it('weighs four engines believed at 5 % and two seen at 0 and 6 % as six', () => {
    // sqrt((4 x 25 + 0 + 36) / 6) = 4.761 %, worked by hand.
    expect(pooledError(0.05, [0, 0.06], 4)).toBeCloseTo(0.04761, 5);
  });
});

describe('MODEL_ERRORS', () => {
  it('takes an engine known by its sizes for no better and no worse than one with sheets, save in the speed of peak torque', () => {
    const { sheets, estimates } = MODEL_ERRORS;
    expect({ ...estimates, torqueSpeed: sheets.torqueSpeed }).toEqual(sheets);
    expect(estimates.torqueSpeed).toBeGreaterThanOrEqual(sheets.torqueSpeed);
  });

  it('leaves no figure without an error, and none worse than three times what was believed', () => {
    for (const errors of Object.values(MODEL_ERRORS)) {
      for (const [key, value] of Object.entries(errors)) {
        expect(value, key).toBeGreaterThan(0);
        expect(value, key).toBeLessThan(3 * BELIEVED_ERROR[key as keyof typeof errors]);
      }
    }
  });
});
