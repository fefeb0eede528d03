/** A shelf as builds: what the engine has stands among the sizes where it belongs, and prices nobody knows are none. */
import { describe, expect, it } from 'vitest';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import { currentValue } from '../../src/changes/currentValue.ts';
import { buildsOf } from '../../src/choosing/buildSpace.ts';
import { readShelf } from '../../src/choosing/readShelf.ts';
import { neverTaken, priceOf, type ShelfSpace, shelfSpace } from '../../src/choosing/shelfSpace.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { fileWith } from '../reading/files.ts';

function engine(): Baseline {
  const read = readDocument(fileWith({ exhaust: '{ primary: { diameter: 1.75 in, length: 30 in } }' }));
  const pinned = read.ok ? pinBaseline(read.value) : read;
  if (!pinned.ok) throw new Error('the file can not be read');
  return pinned.value;
}

function spaceIn(text: string, baseline = engine()): ShelfSpace | string {
  const read = readShelf(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return shelfSpace(baseline, read.value, undefined);
}

function spaceOf(text: string): ShelfSpace {
  const space = spaceIn(text);
  if (typeof space === 'string') throw new Error(space);
  return space;
}

const levels = (text: string): readonly (string | null)[] =>
  spaceOf(text).groups[0].levels.map((level) => level?.name ?? null);

const homeOf = (text: string): readonly (string | undefined)[] => {
  const { groups, space } = spaceOf(text);
  return space.home.map((level, g) => groups[g].levels[level]?.name);
};

const range = (from: string, to: string, step: string, more = '', field = 'exhaust.primary.length'): string =>
  `ranges: [{ name: P, field: ${field}, from: ${from}, to: ${to}, step: ${step}${more} }]`;

describe('the levels of a range', () => {
  it('have what the engine has in place of the size that is the same', () => {
    expect(levels(range('28 in', '32 in', '2 in'))).toEqual(['P 28 in', null, 'P 32 in']);
    // In another unit too.
    expect(levels(range('762 mm', '812.8 mm', '50.8 mm'))).toEqual([null, 'P 812.8 mm']);
  });

  it('have it between the sizes that it lies between, or at an end', () => {
    expect(levels(range('29 in', '33 in', '2 in'))).toEqual(['P 29 in', null, 'P 31 in', 'P 33 in']);
    expect(levels(range('31 in', '33 in', '2 in'))).toEqual([null, 'P 31 in', 'P 33 in']);
    expect(levels(range('24 in', '26 in', '2 in'))).toEqual(['P 24 in', 'P 26 in', null]);
  });

  it('are the sizes alone where one of them must be fitted', () => {
    expect(levels(range('29 in', '31 in', '2 in', ', mayStay: false'))).toEqual(['P 29 in', 'P 31 in']);
  });

  it('begin with it where the engine has no such size', () => {
    expect(currentValue(engine(), 'induction.restrictor.bore') ?? null).toBeNull();
    expect(levels(range('30 mm', '34 mm', '2 mm', '', 'induction.restrictor.bore'))).toEqual([
      null,
      'P 30 mm',
      'P 32 mm',
      'P 34 mm',
    ]);
  });
});

describe('the figures of a shelf', () => {
  const shelf = (cost: number, length = 10): string =>
    `ranges: [{ name: P, field: exhaust.primary.length, from: '28${' '.repeat(length - 4)}in', to: 30 in, step: 1 in, cost: ${cost} }]`;

  it('are refused where they are beyond any money, or longer than any size', () => {
    expect(readShelf(shelf(1e9)).ok).toBe(true);
    expect(readShelf(shelf(1.01e9)).ok).toBe(false);
    expect(readShelf(shelf(10, 60)).ok).toBe(true);
    expect(readShelf(shelf(10, 61)).ok).toBe(false);
  });
});

describe('a shelf with limits', () => {
  const shelf = (limits: string): string =>
    `groups:\n  - name: Cam\n    mayStay: false\n    choices:\n      - { name: A, add: { cam.advance: 2 deg }, cost: 300, hours: 2 }\n      - { name: B, add: { cam.advance: 4 deg }, hours: 1 }\n  - name: Ratio\n    mayStay: false\n    choices:\n      - { name: C, add: { chamber.compression: 3 }, cost: 10 }\n      - { name: D, add: { chamber.compression: 1 }, cost: 90 }\n${limits}`;

  it('begins at one that keeps them where two groups must give way at once', () => {
    const home = homeOf(shelf('limits: { cost: 500, largest: { chamber.compression: 11 } }'));
    // B states no cost, so that no budget can hold it; C is cheaper than D and beyond the rule.
    expect(home).toEqual(['A', 'D']);
  });

  it('is none where no build keeps them', () => {
    expect(spaceIn(shelf('limits: { largest: { chamber.compression: 9 } }'))).toBe('none-keeps');
    expect(spaceIn(shelf('limits: { largest: { engine.bore: 3 in } }'))).toBe('none-keeps');
  });

  it('begins at the one build of a million that keeps them', () => {
    // Seven groups of eight, of which the dearest in each is the only one that takes few enough hours; the rule forbids two more.
    const group = (g: number): string =>
      `  - name: G${g}\n    mayStay: false\n    choices:\n${Array.from(
        { length: 8 },
        (_, c) =>
          `      - { name: G${g}-${c}, add: { ${g === 0 ? 'chamber.compression: 0.1' : 'cam.advance: 0.1 deg'} }, cost: ${10 + c}, hours: ${8 - c} }`,
      ).join('\n')}`;
    const text = `groups:\n${[0, 1, 2, 3, 4, 5, 6].map(group).join('\n')}\n`;
    expect(homeOf(`${text}limits: { cost: 119, hours: 7 }`)).toEqual(
      [0, 1, 2, 3, 4, 5, 6].map((g) => `G${g}-7`),
    );
    expect(spaceIn(`${text}limits: { cost: 118, hours: 7 }`)).toBe('none-keeps');
    expect(homeOf(`${text}limits: { cost: 118, hours: 8 }`)).toHaveLength(7);
  });

  it('holds them against what follows from a part, as compression does from volumes', () => {
    const parts = `groups:\n  - name: Heads\n    choices:\n      - { name: Small, set: { chamber.volume: 40 cc } }\n      - { name: Large, set: { chamber.volume: 80 cc } }\n`;
    const { space } = spaceOf(`${parts}limits: { largest: { chamber.compression: 9.6 } }`);
    // The engine as it is, the small chamber, the large one.
    expect([0, 1, 2].map((level) => space.allowed([level]))).toEqual([true, false, true]);
  });

  it('keep a part that comes to just the largest, however a sum or a unit rounds it', () => {
    const parts = `groups:\n  - name: Header\n    choices:\n      - { name: Long, scale: { exhaust.primary.length: 1.1 } }\n      - { name: Longer, scale: { exhaust.primary.length: 1.1001 } }\n`;
    const { space } = spaceOf(`${parts}limits: { largest: { exhaust.primary.length: 83.82 cm } }`);
    // 30 in as it is, a tenth more, and a little more than that.
    expect([0, 1, 2].map((level) => space.allowed([level]))).toEqual([true, true, false]);
  });

  it('says that it did not try all where one rule looks at too many groups', () => {
    const group = (g: number): string =>
      `  - name: G${g}\n    mayStay: false\n    choices:\n${Array.from(
        { length: 8 },
        (_, c) => `      - { name: G${g}-${c}, scale: { chamber.compression: ${1 + 0.001 * (c + 1)} } }`,
      ).join('\n')}`;
    const text = `groups:\n${[0, 1, 2, 3, 4].map(group).join('\n')}\nlimits: { largest: { chamber.compression: 9.5 } }`;
    expect(spaceIn(text)).toBe('none-found');
  });

  it('names the choices that no build may have, from a list of builds and without one', () => {
    // B states no price, so that no budget can hold it; C asks for more compression than may be.
    const found = spaceOf(shelf('limits: { cost: 500, largest: { chamber.compression: 11 } }'));
    const never = (listed: readonly (readonly number[])[] | null) =>
      neverTaken(found, listed).map(([g, level]) => found.groups[g].levels[level]?.name);
    expect(never(null)).toEqual(['B', 'C']);
    expect(never(buildsOf(found.space))).toEqual(['B', 'C']);
    const free = spaceOf(shelf(''));
    expect(neverTaken(free, null)).toEqual([]);
  });

  it('has no price where a part states none, and the sum where all do', () => {
    const [cam, ratio] = spaceOf(shelf('')).groups;
    const price = (a: number, b: number) =>
      priceOf([cam.levels[a], ratio.levels[b]].flatMap((level) => level ?? []));
    expect(price(0, 1)).toEqual({ cost: 390, hours: null });
    expect(price(1, 0)).toEqual({ cost: null, hours: null });
  });
});
