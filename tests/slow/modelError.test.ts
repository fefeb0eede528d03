/** The table of the model's own error of engines with sheets, worked out again; production engines and gains are on the validation page. */
import { describe, expect, it } from 'vitest';
import { MODEL_ERRORS, type ModelError } from '../../packages/core/src/forecast/modelError.ts';
import { sheetErrors } from '../published/modelErrors.ts';

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
