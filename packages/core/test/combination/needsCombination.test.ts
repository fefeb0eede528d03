import { expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { inspectCombination } from '../../src/forecast/inspection.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import type { NamedCombination } from '../../src/studies/compare.ts';
import { compare } from '../../src/studies/compare.ts';
import { fileWith } from '../reading/files.ts';

const ASKED = 'combination must be a complete engine, the value of what was read, got ';
const read = (): unknown => readCombination(fileWith({}));

it.each([
  ['a result that was not looked into', read, 'object'],
  ['nothing', () => undefined, 'undefined'],
])('%s in place of an engine is told, by a forecast and by an inspection', (_what, given, type) => {
  // What a program without types can do.
  const engine = given() as Combination;
  expect(() => forecast(engine, { rpm: [3000] })).toThrow(`${ASKED}${type}`);
  expect(() => inspectCombination(engine)).toThrow(`${ASKED}${type}`);
});

it('an engine in place of a pinned one is told by a study, and so are options that are no options', async () => {
  const engine = readCombination(fileWith({}));
  if (!engine.ok) throw new Error('not read');
  // What a program without types can do.
  const bare = engine.value as unknown as NamedCombination;
  await expect(compare(bare, [], { rpm: [3000] })).rejects.toThrow(`${ASKED}undefined`);
  const left = {} as { rpm: readonly number[] };
  expect(() => forecast(engine.value, left)).toThrow('rpm must be one speed or more, got none');
  const word = { rpm: [3000], fidelity: 'whole' as 'all' };
  expect(() => forecast(engine.value, word)).toThrow('fidelity must be representative or all, got whole');
});
