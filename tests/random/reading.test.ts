/** Engines nobody drew are odd and real: reading may doubt them, and never takes a size of theirs for a slip of unit. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { CORNERS } from './corners.ts';
import { fileOf } from './examine.ts';
import { randomEngine } from './randomEngine.ts';

describe('no size of a minute or giant engine is asked back as a slip', () => {
  it.each(['metric', 'inch'] as const)('written in %s units', (units) => {
    const engines = [...Object.values(CORNERS), ...fc.sample(randomEngine, { seed: 7, numRuns: 40 })];
    const slips = engines.flatMap(({ sections }) => {
      const read = readCombination(fileOf(sections, units));
      return read.ok ? [] : read.problems.filter(({ code }) => code.endsWith('-slip'));
    });
    expect(slips).toEqual([]);
  });
});
