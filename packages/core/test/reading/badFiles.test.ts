import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { CASES } from './badCases.ts';
import { SHEETS } from './badSheets.ts';

describe('a bad file', () => {
  it.each(CASES)('with %s is answered by place, field, fault and cure', (_, text, ...lines) => {
    const result = readCombination(text, { file: 'e.yaml', sheet: (name) => SHEETS[name] });
    expect(result.ok ? ['was accepted'] : result.problems.map(problemLine)).toEqual(lines);
  });
});
