/** Files and sheets the tests of this room share. */
import { existsSync, readFileSync } from 'node:fs';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

export const EXAMPLES = ['minimum', 'tow-truck', 'hill-climb', 'club-racer', 'scrambler'] as const;
export type Example = (typeof EXAMPLES)[number];

const folder = (name: Example): URL => new URL(`../../../../examples/${name}/`, import.meta.url);

export function exampleText(name: Example): string {
  return readFileSync(new URL('engine.yaml', folder(name)), 'utf8');
}

export function exampleSheet(name: Example): (sheet: string) => string | undefined {
  return (sheet) => {
    const place = new URL(sheet, folder(name));
    return existsSync(place) ? readFileSync(place, 'utf8') : undefined;
  };
}

/** The combination, or an error that prints what is wrong with the file. */
export function readGood(text: string, sheet?: (name: string) => string | undefined): Combination {
  const result = readCombination(text, sheet === undefined ? {} : { sheet });
  if (!result.ok) throw new Error(result.problems.map(problemLine).join('\n'));
  return result.value;
}

export function readExample(name: Example): Combination {
  return readGood(exampleText(name), exampleSheet(name));
}

const SMALLEST: Readonly<Record<string, string>> = {
  engine: '{ bore: 4.000 in, stroke: 3.480 in, cylinders: 8 }',
  chamber: '{ compression: 9.5 }',
  heads: '{ valvesPerCylinder: 2 }',
};

/** A sound small file with some sections replaced, one section a line: line 1 engine, 2 chamber, 3 heads, then the others. */
export function fileWith(sections: Readonly<Record<string, string>>): string {
  return Object.entries({ ...SMALLEST, ...sections })
    .map(([name, value]) => `${name}: ${value}`)
    .join('\n');
}
