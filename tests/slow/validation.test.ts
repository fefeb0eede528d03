import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MODEL_ERRORS, type ModelError } from '../../packages/core/src/forecast/modelError.ts';
import { sheetErrors } from '../published/modelErrors.ts';
import { SLOW_SOURCES } from '../published/publishedSources.ts';
import { allResults, resultOf } from '../validation/results.ts';
import { staleLines } from '../validation/staleness.ts';
import { validationDocument } from '../validation/validationDocument.ts';

const PAGE = new URL('../../docs/validation.md', import.meta.url);

describe.each(SLOW_SOURCES)('$title', ({ cases }) => {
  it('names each figure once', () => expect(new Set(cases.map((c) => c.what)).size).toBe(cases.length));

  it.each(cases.filter((check) => !check.aim))('$what: $value $unit', async (check) => {
    const { holds, ours } = await resultOf(check);
    expect(holds, `${ours} against ${check.value} ${check.unit}`).toBe(true);
  });
});

/** From engines and gains that stand above; production engines are among the cases. */
describe('the model error of engines with sheets', () => {
  it('is what the published engines and the belief come to', () => {
    const worked = sheetErrors();
    // The table is rounded, and a better model need not rewrite it at once.
    for (const key of Object.keys(worked) as (keyof ModelError)[])
      expect(Math.abs(MODEL_ERRORS.sheets[key] / worked[key] - 1), `${key}: ${worked[key]}`).toBeLessThan(
        0.2,
      );
  });
});

describe('docs/validation.md', () => {
  it('says what the checks give; if not, npm run validation writes it anew', async () => {
    expect(staleLines(readFileSync(PAGE, 'utf8'), await allResults())).toEqual([]);
  });

  it('is found stale where a tolerance, a value or a row has changed', async () => {
    const sources = await allResults();
    const page = validationDocument(sources, []);
    expect(staleLines(page, sources)).toEqual([]);
    const row = '| peak pressure over p1, gamma 1.4, burn from -30 deg | 102.7264 | 102.7264 |';
    expect(page).toContain(row);
    for (const other of [
      page.replace(row, row.replace('102.7264 | 102.7264', '102.7264 | 102.7270')),
      page.replace(row, row.replace('102.7264 | 102.7264', '102.7265 | 102.7264')),
      page.replace(row, '| another figure | 102.7264 | 102.7264 |'),
    ]) {
      expect(staleLines(other, sources).length).toBeGreaterThan(0);
    }
  });
});
