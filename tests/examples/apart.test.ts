/** The examples are invented: none may be an engine that the checks hold the program to, not even in part. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { starterFile } from '../../packages/cli/src/starterFile.ts';
import { type Figure, kindOf, si, statedFigures } from './statedFigures.ts';

const root = join(import.meta.dirname, '../..');

/** Closer than this counts as the same: a thousandth of an inch on a stroke, a fifth of a degree on a duration. */
const SAME = 0.001;

/** What an account tells beside what its file states. */
const TOLD: Readonly<Record<string, readonly Figure[]>> = {
  'street-350.yaml': [{ what: 'chamber', value: si('73 cc', 'volume') }],
  'street-350-second.yaml': [{ what: 'chamber', value: si('64 cc', 'volume') }],
};

/** Values so common that an agreement says nothing. Keep it short: each needs its reason. */
const COMMON: readonly (Figure & { readonly reason: string })[] = [
  { what: 'separation', value: 110, reason: 'the middle of every cam list' },
  { what: 'rocker ratio', value: 1.5, reason: 'what most rockers are made in' },
  { what: 'outside of the header tube', value: si('1-5/8 in', 'length'), reason: 'a stock size of tube' },
];

const same = (a: number, b: number): boolean => Math.abs(a / b - 1) < SAME;

const isCommon = ({ what, value }: Figure): boolean =>
  COMMON.some((common) => [what, kindOf(what)].includes(common.what) && same(common.value, value));

/** What two engines have alike: each kind of figure once. */
function agreements(ours: readonly Figure[], theirs: readonly Figure[]): string[] {
  const alike = ours.filter(
    (figure) =>
      !isCommon(figure) &&
      theirs.some(({ what, value }) => what === figure.what && same(figure.value, value)),
  );
  return [...new Set(alike.map(({ what }) => kindOf(what)))];
}

function under(folder: string, name: RegExp): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .map((file) => `${folder}/${file.replaceAll('\\', '/')}`)
    .filter((file) => name.test(file))
    .sort();
}

function figuresOf(file: string): Figure[] {
  const place = join(root, file);
  return statedFigures(readFileSync(place, 'utf8'), (name) => {
    const beside = join(dirname(place), name);
    return existsSync(beside) ? readFileSync(beside, 'utf8') : undefined;
  });
}

const PUBLISHED = under('tests/data/engines', /\.yaml$/);
const EXAMPLES = [
  ...under('examples', /^(?!.*(changes|shelf)).*\.yaml$/),
  ...under('tests/builders', /\.yaml$/),
];

/** The engine in the script for programmers. */
function embedded(): string {
  const text = readFileSync(join(root, 'examples/embed.mjs'), 'utf8');
  const [, file] = /=> `\n(name:.*?)`;/s.exec(text) ?? [];
  return file.replace(/\$\{\w+\}/, '10');
}

const OURS: readonly (readonly [name: string, figures: () => Figure[]])[] = [
  ...EXAMPLES.map((file) => [file, () => figuresOf(file)] as const),
  ['the starter file', () => statedFigures(starterFile('a name', './combination.schema.json'))],
  ['examples/embed.mjs', () => statedFigures(embedded())],
];

describe('examples and published engines', () => {
  it('are there, and state enough to be told apart by', () => {
    expect(PUBLISHED.length).toBeGreaterThan(2);
    expect(EXAMPLES.length).toBeGreaterThan(3);
    for (const file of PUBLISHED) expect(figuresOf(file).length, file).toBeGreaterThan(7);
    expect(
      statedFigures(starterFile('a name', './combination.schema.json')).map(({ what }) => what),
    ).toHaveLength(12);
  });

  it.each(OURS)('%s agrees with no published engine in two figures', (_name, figures) => {
    for (const file of PUBLISHED) {
      const theirs = [...figuresOf(file), ...(TOLD[file.split('/').at(-1) ?? ''] ?? [])];
      expect(agreements(figures(), theirs).slice(1), `${file}: ${agreements(figures(), theirs)}`).toEqual([]);
    }
  });
});

describe('the comparison', () => {
  const file = (bore: string, more: string): Figure[] =>
    statedFigures(
      `engine: { bore: ${bore}, cylinders: 8, ${more} }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 2 }\n`,
    );

  it('sees one engine in two kinds of units', () => {
    expect(agreements(file('101.6 mm', 'stroke: 8.8392 cm'), file('4.000 in', 'stroke: 3.480 in'))).toEqual([
      'bore',
      'stroke',
    ]);
  });

  it('leaves out what a file only estimates, and what whole trades share', () => {
    const alike = file('4 in', 'stroke: 3 in');
    expect(agreements(alike, file('4 in', 'stroke: 3.1 in'))).toEqual(['bore']);
    expect(isCommon({ what: 'exhaust rocker ratio', value: 1.5 })).toBe(true);
    expect(isCommon({ what: 'exhaust rocker ratio', value: 1.7 })).toBe(false);
  });
});
