import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { DYNO, MOST_PULLS, pullsNeeded, resolvablePct } from '../../src/dyno/dynoResolution.ts';

describe('resolvablePct(dyno)', () => {
  // Common practice, no source: smallest difference that two sigma tell, n pulls a side.
  it.each([
    { sigma: 0.3, pulls: 1, printed: '0.85' },
    { sigma: 0.3, pulls: 3, printed: '0.49' },
    { sigma: 0.3, pulls: 5, printed: '0.38' },
    { sigma: 0.5, pulls: 1, printed: '1.4' },
    { sigma: 0.5, pulls: 3, printed: '0.82' },
    { sigma: 0.5, pulls: 5, printed: '0.63' },
    { sigma: 1, pulls: 1, printed: '2.8' },
    { sigma: 1, pulls: 3, printed: '1.63' },
    { sigma: 1, pulls: 5, printed: '1.26' },
  ])('rounds to what shops reckon with: $printed % from $sigma % and $pulls pulls', (row) => {
    const decimals = row.printed.split('.')[1].length;
    const resolved = resolvablePct({ repeatabilityPct: row.sigma, pulls: row.pulls });
    expect(resolved.toFixed(decimals)).toBe(row.printed);
  });

  it('is 0.82 % of the usual dyno: 0.5 % from pull to pull, three pulls a side', () => {
    expect(DYNO).toEqual({ repeatabilityPct: 0.5, pulls: 3 });
    expect(resolvablePct(DYNO)).toBeCloseTo(0.8165, 4);
  });

  it('refuses a dyno that repeats exactly, and half a pull', () => {
    expect(() => resolvablePct({ repeatabilityPct: 0, pulls: 3 })).toThrow(DomainError);
    expect(() => resolvablePct({ repeatabilityPct: 0.5, pulls: 1.5 })).toThrow(DomainError);
  });
});

describe('pullsNeeded(gain, repeatability)', () => {
  it('is the least number of pulls whose resolution reaches the gain', () => {
    for (const gain of [0.4, 0.8, 1.2, 3, -1]) {
      const pulls = pullsNeeded(gain, 0.5);
      if (pulls === null) throw new Error('too many');
      expect(resolvablePct({ repeatabilityPct: 0.5, pulls })).toBeLessThanOrEqual(Math.abs(gain));
      if (pulls > 1)
        expect(resolvablePct({ repeatabilityPct: 0.5, pulls: pulls - 1 })).toBeGreaterThan(Math.abs(gain));
    }
  });

  it('gives up where nobody pulls that often', () => {
    expect(pullsNeeded(0.1, 0.5)).toBeNull();
    expect(pullsNeeded(0, 0.5)).toBeNull();
    // 2 sigma sqrt(2 / 20) of 0.5 % are 0.316 %.
    expect(pullsNeeded(0.317, 0.5)).toBe(MOST_PULLS);
  });
});
