/** Every problem of a file in one reading, whichever stage of reading finds it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { resolveDocument } from '../../src/reading/resolveDocument.ts';
import { exampleSheet, exampleText, fileWith } from './files.ts';

const SHEETS: Readonly<Record<string, string>> = {
  // 147 cfm per in2 at 28 inH2O through a 2.02 in valve is 471 cfm, and 510 is 1.08 times that.
  'high.csv': 'lift in,intake cfm,exhaust cfm\n0.1,60,50\n0.3,470,130\n0.5,510,150\n',
  'ten.csv': 'lift in,intake cfm,exhaust cfm\n0.1,40,30\n0.3,102,78\n0.5,125,90\n',
  'word.csv': 'lift in,intake cfm\n0.1,sixty\n0.3,170\n',
};

function linesOf(text: string): readonly string[] {
  const result = readCombination(text, { file: 'e.yaml', sheet: (name) => SHEETS[name] });
  return result.ok ? ['was accepted'] : result.problems.map(problemLine);
}

/** Field and code of each problem. */
function kindsOf(text: string): readonly string[] {
  const result = readCombination(text, { file: 'e.yaml', sheet: (name) => SHEETS[name] });
  return result.ok ? [] : result.problems.map(({ path, code }) => `${path} ${code}`);
}

describe('a file with one problem of each stage', () => {
  it('names all of them at once: field, sheet, contradiction, completed engine', () => {
    const text = fileWith({
      chamber: '{ compression: 11, volume: 64 cc }', // the volumes give another ratio
      heads:
        '{ valvesPerCylinder: 2, intake: { flow: word.csv }, exhaust: { valve: 1.6 kg }, flow: high.csv }',
      cam: '{ intake: { advertised: 220 deg, at050: 268 deg }, lifter: hydraulic-rolller }',
      fuel: 'diesel',
    });
    expect(kindsOf(text).toSorted()).toEqual([
      'cam.intake.at050 duration-order',
      'cam.lifter unknown-word',
      'chamber.compression compression-disagrees',
      'fuel fuel-unknown',
      'heads.exhaust.valve unit-mismatch',
      'heads.intake.flow sheet-number',
    ]);
  });

  it('names what is wrong with the firing order and the rod beside a bore that could not be read', () => {
    const text = fileWith({
      engine: '{ bore: 4 kg, stroke: 90 mm, cylinders: 4, rod: 60 mm, firingOrder: 1-3-4 }',
      chamber: '{ volume: 50 cc, gasketBore: 40 mm }',
      exhaust: '{ groups: [[1, 2], [3, 3]] }',
    });
    expect(kindsOf(text).toSorted()).toEqual([
      'engine.bore unit-mismatch',
      'engine.firingOrder firing-order',
      'engine.rod rod',
      'exhaust.groups groups',
    ]);
  });

  it('does not blame a firing order on a number of cylinders that could not be read', () => {
    const engine = '{ bore: 86 mm, stroke: 86 mm, cylinders: four, firingOrder: 1-3-4-2 }';
    expect(kindsOf(fileWith({ engine, exhaust: '{ groups: [[1, 4], [2, 3]] }' }))).toEqual([
      'engine.cylinders wrong-kind',
    ]);
  });

  it('names flow beyond the limit beside a slip in another field of the heads', () => {
    const text = fileWith({
      engine: '{ bore: 4 in, stroke: 3.48 in, cylinders: 8, rodd: 5.7 in }',
      heads: '{ valvesPerCylinder: 2, flow: high.csv, intake: { valve: 2.02 in, portLength: 5 } }',
    });
    expect(linesOf(text)).toEqual([
      'e.yaml:1:54 engine.rodd is not a field of this file (did you mean rod?)',
      'e.yaml:3:32 heads.flow at 0.5 in lift: flow is 1.08 of what the smallest cross-section can pass: a wrong area, depression or reading (the smallest is the valve head, 3.2 in2)',
      'e.yaml:3:74 heads.intake.portLength needs a length with its unit, such as 5 in: 5 alone could be anything',
    ]);
  });

  it('names a missing number of valves beside a slip in another field of the heads', () => {
    const text = fileWith({ heads: '{ bench: { depression: 28 inHg }, intake: { valve: 1.94 in } }' });
    expect(kindsOf(text).toSorted()).toEqual([
      'heads.bench.depression out-of-range',
      'heads.valvesPerCylinder missing',
    ]);
  });

  it('does not call the number of valves missing where it is misspelt', () => {
    const text = fileWith({ heads: '{ valvesPerCylindr: 2 }' });
    expect(kindsOf(text)).toEqual(['heads.valvesPerCylindr unknown-field']);
  });

  it('names a doubtful depression beside a misspelt section', () => {
    const text = fileWith({
      heads: '{ valvesPerCylinder: 2, flow: ten.csv }',
      camm: '{ separation: 110 deg }',
    });
    expect(kindsOf(text)).toEqual(['heads.flow depression-doubtful', 'camm unknown-field']);
  });
});

describe('what is wrong only because another field is', () => {
  it.each([
    [
      'flow judged by a valve that could not be read',
      'heads',
      '{ valvesPerCylinder: 2, flow: high.csv, intake: { valve: 9 in } }',
      'heads.intake.valve out-of-range',
    ],
    [
      'flow judged by a valve that is misspelt',
      'heads',
      '{ valvesPerCylinder: 2, flow: high.csv, intake: { valv: 2.02 in } }',
      'heads.intake.valv unknown-field',
    ],
    [
      'flow at a depression that could not be read',
      'heads',
      '{ valvesPerCylinder: 2, flow: ten.csv, bench: { depression: 10 } }',
      'heads.bench.depression unit-missing',
    ],
    [
      'a ratio against volumes one of which is misspelt',
      'chamber',
      '{ compression: 11, volume: 64 cc, domme: 10 cc }',
      'chamber.domme unknown-field',
    ],
    [
      'a spark timing without the table that could not be read',
      'burn',
      '{ timing: spark, spark: [{ rpm: 3000, advance: 34 deg }] }',
      'burn.spark.0.rpm unit-missing',
    ],
    [
      'a chamber whose only figure could not be read',
      'chamber',
      '{ compression: ten }',
      'chamber.compression wrong-kind',
    ],
  ])('is not told: %s', (_, section, value, kind) => {
    expect(kindsOf(fileWith({ [section]: value }))).toEqual([kind]);
  });
});

describe('any fields of a sound file replaced by nonsense', () => {
  it('are each answered for, with a list and never with an error', () => {
    const read = readDocument(exampleText('hill-climb'));
    if (!read.ok) throw new Error('the example does not read');
    const { value: document } = read;
    const fields = Object.keys(document.positions).filter((path) => !/\.\d+(\.|$)|^name$/u.test(path));
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.constantFrom(...fields), { minLength: 1, maxLength: 5 }),
        fc.constantFrom('3 furlongs', -7, true, '', 'none of it', 1e9),
        (paths, nonsense) => {
          const bad = paths.reduce((left, path) => editDocument(left, path, nonsense), document);
          const result = resolveDocument(bad, { sheet: exampleSheet('hill-climb') });
          const answered = result.ok ? [] : result.problems.map(({ path }) => path);
          expect(
            new Set(answered.map((path, i) => `${path} ${result.ok ? '' : result.problems[i].code}`)).size,
          ).toBe(answered.length);
          if (nonsense !== '3 furlongs') return;
          for (const path of paths) {
            // A section replaced hides what was in it; a flow sheet of that name is merely not there.
            const inside = paths.some((other) => path.startsWith(`${other}.`));
            if (!inside)
              expect(
                answered.some((at) => at === path || at.startsWith(`${path}.`)),
                path,
              ).toBe(true);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
