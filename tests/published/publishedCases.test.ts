import { describe, expect, it } from 'vitest';
import { holds, type PublishedCase } from './publishedCase.ts';
import { QUICK_SOURCES } from './publishedSources.ts';

describe.each(QUICK_SOURCES)('$title', ({ cases }) => {
  it('names each figure once', () => expect(new Set(cases.map((c) => c.what)).size).toBe(cases.length));

  it.each(cases.filter((check) => !check.aim))('$what: $value $unit', async (check) => {
    const ours = await check.compute();
    expect(holds(check, ours), `${ours} against ${check.value} ${check.unit}`).toBe(true);
  });
});

describe('a published case', () => {
  const check: PublishedCase = { what: '', value: 10, unit: '', decimals: 0, within: 0.1, compute: () => 0 };

  it('holds within its tolerance, as a difference or as a share, and never for what is no number', () => {
    expect(holds(check, 10.09)).toBe(true);
    expect(holds(check, 10.11)).toBe(false);
    expect(holds({ ...check, relative: true }, 10.9)).toBe(true);
    expect(holds({ ...check, relative: true }, 8.9)).toBe(false);
    expect(holds(check, Number.NaN)).toBe(false);
  });

  it('may be a bound', () => {
    expect(holds({ ...check, relation: 'at most' }, 10)).toBe(true);
    expect(holds({ ...check, relation: 'at most' }, 10.01)).toBe(false);
    expect(holds({ ...check, relation: 'at least' }, 9.99)).toBe(false);
    expect(holds({ ...check, relation: 'at least' }, Number.NaN)).toBe(false);
  });
});
