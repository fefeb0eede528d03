import { describe, expect, it } from 'vitest';
import type { ExhaustSystem } from '../../src/combination/combination.ts';
import { evenPairs } from '../../src/reading/defaults/firing.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

const FOUR = `
name: four
engine: { cylinders: 4, bore: 86 mm, stroke: 86 mm, ratedSpeed: 6500 rpm }
chamber: { compression: 10 }
heads: { valvesPerCylinder: 4 }
`;
const EIGHT = `
name: eight
engine: { cylinders: 8, bore: 100 mm, stroke: 90 mm, ratedSpeed: 6000 rpm }
chamber: { compression: 10 }
heads: { valvesPerCylinder: 2 }
`;

function exhaustOf(exhaust: string, engine = FOUR): ExhaustSystem {
  const read = readCombination(`${engine}exhaust: ${exhaust}\n`, { file: 'engine.yaml' });
  if (!read.ok) throw new Error(read.problems.map(({ path, message }) => `${path} ${message}`).join('\n'));
  return read.value.exhaustSystem;
}

function problemsOf(exhaust: string, engine = FOUR): string[] {
  const read = readCombination(`${engine}exhaust: ${exhaust}\n`, { file: 'engine.yaml' });
  return read.ok ? [] : read.problems.map(({ path, message }) => `${path} ${message}`);
}

const disc = (mm: number): number => (Math.PI / 4) * (mm / 1000) ** 2;

describe('pairs of first merges', () => {
  it('come as evenly as can be in all: a turn apart in a four, none a quarter turn apart in a bank of a V8', () => {
    expect(evenPairs([[1, 2, 3, 4]], [0, 540, 180, 360])).toEqual([
      [1, 4],
      [2, 3],
    ]);
    // 1-8-4-3-6-5-7-2: in the bank of 1, 3, 5, 7 cylinder 7 fires a quarter turn behind 5.
    const angles = [0, 630, 270, 180, 450, 360, 540, 90];
    expect(evenPairs([[1, 3, 5, 7]], angles)).toEqual([
      [1, 5],
      [3, 7],
    ]);
    expect(evenPairs([[1, 2, 3]], [0, 480, 240])).toEqual([[1, 2], [3]]);
  });
});

describe('an exhaust built up of parts', () => {
  it('has primaries in steps, each wall as the first where it is not stated', () => {
    const { primary } = exhaustOf(
      '{ primary: { diameter: 42 mm, wall: 1 mm, length: 800 mm, steps: [{ after: 300 mm, diameter: 45 mm }, { after: 550 mm, inside: 46 mm }] } }',
    );
    expect(primary.area).toBeCloseTo(disc(40), 12);
    expect(primary.steps?.map(({ after }) => after)).toEqual([0.3, 0.55]);
    expect(primary.steps?.[0].area).toBeCloseTo(disc(43), 12);
    expect(primary.steps?.[1].area).toBeCloseTo(disc(46), 12);
  });

  it('has a primary of its own length for each cylinder, and their mean where one is asked for', () => {
    const { primary } = exhaustOf('{ primary: { lengths: [700 mm, 740 mm, 760 mm, 800 mm] } }');
    expect(primary.lengths?.map((x) => Math.round(1e9 * x) / 1e9)).toEqual([0.7, 0.74, 0.76, 0.8]);
    expect(primary.length).toBeCloseTo(0.75, 12);
  });

  it('pairs the cylinders of a four that fire a turn apart: 1 with 4, 2 with 3', () => {
    const { secondary } = exhaustOf('{ secondary: { inside: 44 mm, length: 350 mm } }');
    expect(secondary?.groups).toEqual([
      [1, 4],
      [2, 3],
    ]);
    expect(secondary?.area).toBeCloseTo(disc(44), 12);
  });

  it('pairs the cylinders of a V8 within its banks, as evenly as they come', () => {
    const { secondary, collectors } = exhaustOf('{ secondary: {} }', EIGHT);
    for (const pair of secondary?.groups ?? [])
      expect(collectors?.groups.some((g) => pair.every((c) => g.includes(c)))).toBe(true);
    expect(secondary?.groups.flat().sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('has collectors that widen, and a tube between two of them', () => {
    const { collectors, balance } = exhaustOf(
      '{ collector: { inside: 70 mm, exit: 90 mm }, balance: { inside: 50 mm, at: 200 mm } }',
      EIGHT,
    );
    expect(collectors?.exitArea).toBeCloseTo(disc(90), 12);
    expect(balance?.at).toBeCloseTo(0.2, 12);
    expect(balance?.area).toBeCloseTo(disc(50), 12);
  });

  it('has no parts that nobody stated: a plain header is what it was', () => {
    const plain = exhaustOf('{ style: headers }');
    expect(Object.keys(plain).sort()).toEqual(['collectors', 'outletArea', 'primary', 'returned']);
    expect(plain.outletArea).toBe(plain.collectors?.area);
  });

  it.each([
    ['{ primary: { lengths: [1 m, 1 m] } }', 'exhaust.primary.lengths has 2 lengths for 4 cylinders'],
    [
      '{ primary: { length: 1 m, lengths: [1 m, 1 m, 1 m, 1 m] } }',
      'exhaust.primary.length is given beside the length of each: keep one of the two',
    ],
    [
      '{ primary: { length: 500 mm, steps: [{ after: 600 mm, inside: 50 mm }] } }',
      'exhaust.primary.steps.0.after lies behind the end of the primary',
    ],
    [
      '{ primary: { length: 500 mm, steps: [{ after: 200 mm }] } }',
      'exhaust.primary.steps.0 needs the next size: a diameter, or the inside',
    ],
    [
      '{ primary: { length: 500 mm, steps: [{ after: 200 mm, inside: 50 mm }, { after: 100 mm, inside: 55 mm }] } }',
      'exhaust.primary.steps.1.after must lie behind the step before it',
    ],
    ['{ balance: {} }', 'exhaust.balance joins two collectors, and this engine has 1'],
    ['{ collector: none, secondary: {} }', 'exhaust.secondary is given although there is no collector'],
    [
      '{ secondary: { groups: [[1, 4], [2, 3, 3]] } }',
      'exhaust.secondary.groups must hold each of the 4 cylinders once',
    ],
    [
      '{ groups: [[1, 2], [3, 4]], secondary: { groups: [[1, 4], [2, 3]] } }',
      'exhaust.secondary.groups joins 1 and 4, which end in two collectors',
    ],
  ])('refuses %s', (exhaust, line) => expect(problemsOf(exhaust)).toContain(line));
});

describe('a muffler', () => {
  it('is a box with chambers where it loses as much as one', () => {
    const { muffler, outletArea, collectors } = exhaustOf(
      '{ muffler: { backPressure: 3 psi, airflow: 400 cfm } }',
    );
    expect(muffler?.kind).toBe('chambered');
    expect(muffler?.volume).toBeCloseTo(3 * 4 * disc(86) * 0.086, 5);
    expect(outletArea).toBeCloseTo(collectors?.area ?? 0, 12);
  });

  it('is a pipe with holes in a box where it passes more than chambers would', () => {
    const { muffler } = exhaustOf('{ muffler: { flow: 900 cfm } }');
    expect(muffler?.kind).toBe('straight-through');
  });

  it.each([
    ['{ muffler: open, box: { volume: 8 l } }', "exhaust.box is given although the muffler is 'open'"],
    [
      '{ muffler: chambered, box: { kind: straight-through } }',
      'exhaust.box.kind is straight-through, and the muffler is chambered',
    ],
    ['{ box: { backPressure: 2 psi } }', 'exhaust.box.backPressure goes with a muffler that is named'],
    [
      '{ muffler: { flow: 400 cfm }, box: { backPressure: 2 psi } }',
      'exhaust.box.backPressure is given beside a muffler by its rating or its back-pressure: keep one of the two',
    ],
  ])('refuses %s', (exhaust, line) => expect(problemsOf(exhaust)).toContain(line));

  it('that is only named holds back what its kind does at rated speed, within 40 %, or what its box says', () => {
    const loss = (exhaust: string): number => 1 / (exhaustOf(exhaust).muffler?.passage ?? 0) ** 2;
    const read = readCombination(`${FOUR}exhaust: { muffler: chambered }\n`, { file: 'engine.yaml' });
    const entry = read.ok ? read.value.assumed.find(({ path }) => path.endsWith('backPressure')) : undefined;
    expect(entry).toMatchObject({ path: 'exhaust.box.backPressure', value: 2.5, unit: 'psi', spread: 1 });
    const [usual, more, most] = [
      '',
      ', box: { backPressure: 3.5 psi }',
      ', box: { backPressure: 4.5 psi }',
    ].map((box) => loss(`{ muffler: chambered${box} }`));
    // What is lost beside the pipes goes with the pressure.
    expect((most - more) / (more - usual)).toBeCloseTo(1, 6);
    expect(most).toBeGreaterThan(1.5 * usual);
  });

  it('takes its box and its pipe as stated', () => {
    const { muffler, outletArea } = exhaustOf(
      '{ muffler: { backPressure: 1.5 psi }, box: { kind: chambered, volume: 8 l, pipe: { inside: 48 mm, length: 600 mm } } }',
    );
    expect(muffler).toMatchObject({ kind: 'chambered', volume: 0.008 });
    expect(muffler?.pipe.length).toBeCloseTo(0.6, 12);
    expect(outletArea).toBeCloseTo(disc(48), 12);
  });
});
