/** Keys that are no fields, of every kind and in every section: each is refused where it stands, and none is cut off in silence. */
import { describe, expect, it } from 'vitest';
import { readChanges } from '../../src/changes/readChanges.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fieldPaths } from '../../src/reading/schema/fieldPaths.ts';
import { leastProcessorTime, processorTime } from '../support/processorTime.ts';
import { fileWith } from './files.ts';

function lines(text: string): readonly string[] {
  const result = readCombination(text, { file: 'e.yaml' });
  return result.ok ? ['was accepted'] : result.problems.map(problemLine);
}

function changeLines(text: string): readonly string[] {
  const result = readChanges(text, { file: 'c.yaml' });
  return result.ok ? ['was accepted'] : result.problems.map(problemLine);
}

describe('a decimal comma between braces', () => {
  it('is refused with the number that was meant', () => {
    expect(lines(fileWith({ chamber: '{ compression: 9,5 }' }))).toEqual([
      "e.yaml:2:27 chamber.compression has a decimal comma in '9,5' (write 9.5)",
    ]);
  });

  it('keeps a zero behind it', () => {
    expect(lines(fileWith({ valvetrain: '{ intakeRatio: 1,05 }' }))).toEqual([
      "e.yaml:4:30 valvetrain.intakeRatio has a decimal comma in '1,05' (write 1.05)",
    ]);
  });

  it('is told of a quantity with its unit, and hides no other slip', () => {
    const text = fileWith({ engine: '{ bore: 10,16 cm, stroke: 3.48 in, cylinders: 8, rod: 5 kg }' });
    expect(lines(text)).toEqual([
      "e.yaml:1:20 engine.bore has a decimal comma in '10,16 cm' (write 10.16 cm)",
      "e.yaml:1:58 engine.rod needs a length, got '5 kg' (use in, mm, cm, thou, ft, m)",
    ]);
  });

  it('is refused in a list, twice where it stands twice', () => {
    const text = fileWith({
      burn: '{ timing: spark, spark: [{ rpm: 2000 rpm, advance: 30,5 deg }, { rpm: 3000 rpm, advance: 34,5 deg }] }',
    });
    expect(lines(text)).toEqual([
      "e.yaml:4:61 burn.spark.0.advance has a decimal comma in '30,5 deg' (write 30.5 deg)",
      "e.yaml:4:99 burn.spark.1.advance has a decimal comma in '34,5 deg' (write 34.5 deg)",
    ]);
  });

  it('is refused in a changes file', () => {
    expect(changeLines('changes:\n  - name: a\n    set: { chamber.compression: 10,9 }\n')).toEqual([
      "c.yaml:3:36 changes.0.set.chamber.compression has a decimal comma in '10,9' (write 10.9)",
    ]);
    expect(changeLines('changes:\n  - { name: a, cost: 950,5, scale: { cam.advance: 1,1 } }\n')).toEqual([
      "c.yaml:2:26 changes.0.cost has a decimal comma in '950,5' (write 950.5)",
      "c.yaml:2:53 changes.0.scale.cam.advance has a decimal comma in '1,1' (write 1.1)",
    ]);
  });
});

/** Ways to write a key that no section has, with and without value, between braces and on lines of their own. */
const KEYS: readonly (readonly [what: string, key: string])[] = [
  ['a word with nothing behind it', 'zqx:'],
  ['a word with null behind it', 'zqx: null'],
  ['a word with a tilde behind it', 'zqx: ~'],
  ['a word with a value', 'zqx: 3'],
  ['a number', '5: 3'],
  ['a number with nothing behind it', '5:'],
  ['a number with a point', '2.5:'],
  ['a quoted number', '"5":'],
  ['a word in quotes', "'zqx':"],
  ['true', 'true:'],
  ['null', 'null:'],
  ['a path', 'engine.bore: 4 in'],
  ['a name with a blank', 'valve lift:'],
];

const SECTIONS = [
  ...new Set(
    fieldPaths()
      .filter((path) => path.includes('.'))
      .map((path) => path.slice(0, path.lastIndexOf('.'))),
  ),
];

/** A file whose only fields in the section are the one written. */
function fileWithKey(section: string, key: string): string {
  const names = section.split('.');
  return `${names.map((name, depth) => `${'  '.repeat(depth)}${name}:\n`).join('')}${'  '.repeat(names.length)}${key}\n`;
}

describe.each(KEYS)('%s where no such field is', (_what, key) => {
  it('is refused at the top of a file', () => {
    const text = `${fileWith({})}\n${key}\n`;
    expect(lines(text).filter((line) => line.startsWith('e.yaml:4:1 '))).toHaveLength(1);
  });

  it.each(SECTIONS)('is refused in %s', (section) => {
    const at = section.split('.').length + 1;
    const told = lines(fileWithKey(section, key)).filter((line) => line.startsWith(`e.yaml:${at}:`));
    expect(told).toHaveLength(1);
  });

  it('is refused in a changes file, in its entries and in what they set', () => {
    const entry = `changes:\n  - name: a\n    set: { cam.advance: 2 deg }\n    ${key}\n`;
    expect(changeLines(entry).filter((line) => line.startsWith('c.yaml:4:'))).toHaveLength(1);
    if (key.startsWith('engine.bore')) return;
    const inside = `changes:\n  - name: a\n    set:\n      cam.advance: 2 deg\n      ${key}\n`;
    expect(changeLines(inside).filter((line) => line.startsWith('c.yaml:5:'))).toHaveLength(1);
  });
});

describe('a known field with nothing behind its colon', () => {
  it('is left out of a combination', () => {
    expect(
      lines(
        'engine: { bore: 4 in, stroke: 3.48 in, cylinders: 8, rod: }\nchamber:\n  compression: 9\n  dome:\nheads: { valvesPerCylinder: 2 }\ncam:\n',
      ),
    ).toEqual(['was accepted']);
  });

  it('is refused between braces where even the colon is missing', () => {
    expect(lines(fileWith({ chamber: '{ compression: 9, dome }' }))).toEqual([
      "e.yaml:2:28 chamber.dome has no value: 'dome' stands alone between commas (write its value behind a colon, or take it out)",
    ]);
  });

  it('is refused in a change, which would change nothing', () => {
    expect(changeLines('changes:\n  - name: a\n    set:\n      cam.advance:\n')).toEqual([
      'c.yaml:4:7 changes.0.set.cam.advance has no value',
    ]);
  });
});

describe('thousands of wrong keys', () => {
  const many = (count: number, key: (i: number) => string): string =>
    Array.from({ length: count }, (_, i) => key(i)).join('\n');

  it.each<[what: string, count: number, text: (count: number) => string]>([
    ['unknown sections', 2400, (count) => many(count, (i) => `k${i}: 1`)],
    ['unknown fields', 2400, (count) => `engine:\n${many(count, (i) => `  k${i}: 1`)}`],
    ['unknown fields without value', 2400, (count) => `engine:\n${many(count, (i) => `  k${i}:`)}`],
    [
      'wrong entries of a list',
      1400,
      (count) => `burn:\n  spark:\n${many(count, (i) => `    - { rpm: ${i} kg }`)}`,
    ],
    ['fields, more than any file has', 8000, (count) => many(count, (i) => `k${i}: 1`)],
  ])('take no more work each than hundreds do: %s', (_what, count, text) => {
    const few = leastProcessorTime(() => lines(text(count / 8)));
    const begun = process.cpuUsage();
    const told = lines(text(count));
    const all = processorTime(begun);
    expect(told.length).toBeGreaterThan(0);
    expect(told.length).toBeLessThanOrEqual(200);
    // Eight times the keys, sixty-four times the work where each is held against each.
    expect(all / few).toBeLessThan(24);
  });
});

describe('a changes file with several slips', () => {
  it('tells all of them at once, those of paths too', () => {
    const text = [
      'changes:',
      '  - name: a',
      '    set: { heads.intake.vlave: 2 in }',
      '    cots: 3',
      '  - name: b',
      '    set: { engine.boer: 4 in }',
      '  - name: b',
      '    scale: { cam.advance: two }',
    ].join('\n');
    expect(changeLines(text)).toEqual([
      'c.yaml:3:12 heads.intake.vlave is not a field of a combination (did you mean heads.intake.valve?)',
      'c.yaml:4:5 changes.0.cots is not a field of this file (did you mean cost?)',
      'c.yaml:6:12 engine.boer is not a field of a combination (did you mean engine.bore?)',
      "c.yaml:7:5 changes.2.name is the name of two changes: 'b'",
      "c.yaml:8:14 changes.2.scale.cam.advance needs a plain number above 0 to scale by, got 'two'",
    ]);
  });
});
