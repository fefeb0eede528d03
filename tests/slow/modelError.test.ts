/** The table of the model's own error, worked out again from the published engines, and how often it covers them. */
import { beforeAll, describe, expect, it } from 'vitest';
import { MODEL_ERRORS, type ModelError } from '../../packages/core/src/forecast/modelError.ts';
import {
  coverage,
  ownError,
  ratedWithSpread,
  type SpreadRating,
  sheetErrors,
} from '../published/modelErrors.ts';

/** The table is rounded, and a better model need not rewrite it at once. */
const STALE = 0.2;

describe('the model error of engines with sheets', () => {
  it('is what the published engines and the belief come to', () => {
    const worked = sheetErrors();
    for (const key of Object.keys(worked) as (keyof ModelError)[])
      expect(Math.abs(MODEL_ERRORS.sheets[key] / worked[key] - 1), `${key}: ${worked[key]}`).toBeLessThan(
        STALE,
      );
  }, 600_000);
});

describe('the model error of production engines', () => {
  let rated: readonly SpreadRating[] = [];
  beforeAll(async () => {
    rated = await ratedWithSpread();
  }, 1_200_000);

  it('is what their ratings scatter beyond what is not known of them', () => {
    expect(rated.length).toBeGreaterThan(12);
    const worked = ownError(rated);
    expect(Math.abs(MODEL_ERRORS.estimates.power / worked - 1), `${worked}`).toBeLessThan(STALE);
  });

  it('covers 55 to 80 % of them with one standard deviation, and at least 85 % with two', () => {
    const own = MODEL_ERRORS.estimates.power;
    expect(coverage(rated, own, 1)).toBeGreaterThanOrEqual(0.55);
    expect(coverage(rated, own, 1)).toBeLessThanOrEqual(0.8);
    expect(coverage(rated, own, 2)).toBeGreaterThanOrEqual(0.85);
  });
});
