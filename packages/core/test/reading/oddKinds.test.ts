/** Values of a kind that no field takes, and names that are none: each is told with its place and what would do. */
import { describe, expect, it } from 'vitest';
import { readChanges } from '../../src/changes/readChanges.ts';
import { readShelf } from '../../src/choosing/readShelf.ts';
import { type Problem, problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith, readGood } from './files.ts';

type Read = { readonly ok: true } | { readonly ok: false; readonly problems: readonly Problem[] };
const told = (read: Read): readonly string[] => (read.ok ? [] : read.problems.map(problemLine));
const engine = (text: string): readonly string[] => told(readCombination(text, { file: 'e.yaml' }));

describe('a name of a field', () => {
  it.each(['? [a]\n: 1\n', "'': 1\n", '{ [1, 2]: 3 }', '{ a: 1, [b] }'])(
    'is a word, and not as in %j',
    (text) => {
      expect(engine(text).join('\n')).toContain('has a field whose name is not a word');
    },
  );

  it('is cut where it is too long for a line', () => {
    const [line] = engine(`{ ${'x'.repeat(80)} }`).filter((each) => each.includes('has no value'));
    expect(line).toContain(`has no value: '${'x'.repeat(57)}...' stands alone between commas`);
  });

  it('behind a text in quotes is still the second half of a decimal comma', () => {
    expect(engine('{ engine: { bore: "4", 5 in } }')).toContain(
      "e.yaml:1:24 engine.bore has a decimal comma in '4,5 in' (write 4.5 in)",
    );
  });
});

describe('a value of the wrong kind', () => {
  it.each([
    ['notes', "''", '4:1 notes is empty'],
    ['notes', `'${'x'.repeat(5000)}'`, '4:1 notes must have at most 4000 letters'],
    ['exhaust', '{ groups: [[]] }', '4:21 exhaust.groups.0 must have at least 1 entry'],
    [
      'mixture',
      '{ lambda: 0.9, differences: [0.9, 0, 0, 0, 0, 0, 0, 0] }',
      '4:39 mixture.differences.0 is impossible: 0.9 must be at most 0.4 (a lambda? write what the cylinder has beyond mixture.lambda)',
    ],
    [
      'mixture',
      '{ airFuelRatio: 0.9 }',
      '4:12 mixture.airFuelRatio is impossible: 0.9 must be at least 3 (a lambda? write lambda: 0.9)',
    ],
    [
      'mixture',
      '{ lambda: 12.9 }',
      '4:12 mixture.lambda is impossible: 12.9 must be at most 1.6 (an air-fuel ratio? write airFuelRatio: 12.9)',
    ],
  ])('in %s: %s', (section, value, line) => {
    expect(engine(fileWith({ [section]: value }))).toEqual([`e.yaml:${line}`]);
  });

  it.each([
    ['changes: 5', '1:1 changes needs a list, got 5'],
    ['changes: [null]', '1:11 changes.0 needs fields of its own, got nothing'],
    ['changes: [[1]]', '1:11 changes.0 needs fields of its own, got a list'],
    ['changes: [{ name: a, set: 5 }]', '1:22 changes.0.set needs fields of its own, got 5'],
    [
      'changes: [{ name: a, add: { cam.advance: [1] } }]',
      '1:29 changes.0.add.cam.advance needs an amount to add, such as 2 deg, got a list',
    ],
    [
      'changes: [{ name: a, scale: { cam.advance: true } }]',
      '1:31 changes.0.scale.cam.advance needs a plain number above 0 to scale by, got true',
    ],
  ])('in changes: %s', (text, line) => {
    expect(told(readChanges(text))).toEqual([`changes:${line}`]);
  });
});

describe('a shelf', () => {
  const range = (from: string, to = '30 in', step = '1 in', field = 'exhaust.primary.length'): string =>
    `ranges:\n  - { name: a, field: ${field}, from: ${from}, to: ${to}, step: ${step} }`;

  it.each([
    ['- 1', ' is not a shelf: groups: and ranges: are expected'],
    [
      'a: [',
      ':1:5 is not readable YAML: Flow sequence in block collection must be sufficiently indented and end with a ]',
    ],
    [range('x'), ":2:5 ranges.0 can't begin at 'x': a number, with its unit where it has one"],
    [range('28 in', '30 deg'), ':2:5 ranges.0 needs from, to and step in units of one kind, such as 26 in'],
    [range('28 in', '30 in', '0 in'), ':2:5 ranges.0 needs a step above nothing, and to at from or above it'],
    [range('28 in', '30 in', '0.01 in'), ':2:5 ranges.0 makes 201 values, and 40 at most are tried'],
    [range('[1]'), ':2:47 ranges.0.from needs a plain number or a text, got a list'],
    [
      range('28 in', '30 in', '1 in', 'exhaust.primary.lngth'),
      ':2:16 exhaust.primary.lngth is not a field of a combination (did you mean exhaust.primary.length?)',
    ],
    [
      'groups: [{ name: a, choices: [{ name: b, price: 4, set: { cam.advance: 2 deg } }] }]',
      ':1:42 groups.0.choices.0.price is not a field of this file (write cost, a plain number of your money)',
    ],
    ['groups: [{ name: a, choices: [] }]', ':1:21 groups.0.choices must have at least 1 entry'],
  ])('is refused with its line: %j', (text, line) => {
    expect(told(readShelf(text))).toEqual([`shelf${line}`]);
  });
});

describe('a cam card that its lobe does not reach', () => {
  it.each([
    ['at200: 150 deg, valveLift: 0.25 in', 'at200', '0.1562'],
    ['at050: 200 deg, valveLift: 0.06 in', 'at050', '0.0375'],
    ['advertised: 240 deg, checkedAt: 0.04 in, valveLift: 0.06 in', 'advertised', '0.0375'],
  ])('is told by the line beyond the lift: %s', (card, field, lift) => {
    expect(engine(fileWith({ cam: `{ intake: { ${card}, cardRatio: 1.6 } }` }))).toEqual([
      `e.yaml:4:18 cam.intake.${field} is impossible: the lobe rises only ${lift} in`,
    ]);
  });
});

describe('what a card or a rocker says', () => {
  it('of a rocker as it left the factory: the valve rises less than its stamp says', () => {
    const rise = (valvetrain: string): number =>
      readGood(fileWith({ valvetrain, cam: '{ intake: { at050: 220 deg, lobeLift: 0.32 in } }' })).intake
        .rockerRatio;
    expect(rise('{ intakeRatio: 1.5, ratioIs: production }')).toBeLessThan(rise('{ intakeRatio: 1.5 }'));
    expect(rise('{ intakeRatio: 1.5, ratioIs: measured }')).toBe(1.5);
  });

  it('of the duration where a roller is fitted: from one line alone, less at 0.050 in than at the seat', () => {
    const { intake } = readGood(
      fileWith({ cam: '{ lifter: hydraulic-roller, intake: { advertised: 270 deg } }' }),
    );
    if (intake.lobe.kind !== 'card') throw new Error('a card makes a card');
    const [seat, ...others] = intake.lobe.points.map(({ duration }) => duration);
    expect(seat).toBe(270);
    for (const duration of others) expect(duration).toBeLessThan(270);
  });
});
