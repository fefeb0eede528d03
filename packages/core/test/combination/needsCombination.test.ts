import { expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { forecast } from '../../src/forecast/forecast.ts';
import { inspectCombination } from '../../src/forecast/inspection.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
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
