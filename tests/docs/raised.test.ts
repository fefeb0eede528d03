/** Every code of the page of messages is raised by a test: by a file or sheet here, or by the test of what computes it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../packages/core/src/changes/applyChanges.ts';
import { pinBaseline } from '../../packages/core/src/changes/baseline.ts';
import { readChanges } from '../../packages/core/src/changes/readChanges.ts';
import { readDynoSheet } from '../../packages/core/src/dyno/dynoSheet.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { CASES } from '../../packages/core/test/reading/badCases.ts';
import { SHEETS } from '../../packages/core/test/reading/badSheets.ts';
import { fileWith } from '../../packages/core/test/reading/files.ts';
import { ENGINE_PROBLEMS, FILE_PROBLEMS, SHEET_PROBLEMS, WARNINGS } from './messageTable.ts';

const TOP = '# standard: J607\nrpm,torque (lb-ft)\n';
const twoValves = 'valvesPerCylinder: 2';

/** Sections that raise a code, beside those of the tests of reading. */
const SECTIONS: readonly Readonly<Record<string, string>>[] = [
  { cam: '{ intake: { table: flat.csv, at050: 224 deg } }' },
  { cam: '{ intake: { at050: 230 deg, at200: 226 deg, lobeLift: 0.36 in } }' },
  { cam: '{ intake: { at050: 343 deg } }' },
  { cam: '{ intake: { at200: 150 deg, lobeLift: 0.15 in } }' },
  { chamber: '{ volume: 20 cc }' },
  { chamber: '{ dome: 5 cc }' },
  { chamber: '{ compression: 9, dome: 5 cc, gasketBore: 3.5 in }' },
  { heads: `{ ${twoValves}, flow: other.csv, bench: { depression: 28 inH2O } }` },
  {
    heads: `{ ${twoValves}, intake: { flow: [{ lift: 0.2 in, flow: 90 cfm }, { lift: 0.1 in, flow: 60 cfm }] } }`,
  },
  {
    heads: `{ ${twoValves}, intake: { flow: [{ lift: 0.1 in, flow: 0 cfm }, { lift: 0.2 in, flow: 60 cfm }] } }`,
  },
  { heads: `{ ${twoValves}, intake: { valve: 1.3 in, stem: 0.7 in } }` },
  { heads: '{ valvesPerCylinder: 4, intake: { valves: 1 } }' },
  { heads: `{ ${twoValves}, intake: { portArea: 1.5 in2, minimumArea: 2 in2 } }` },
  { heads: `{ ${twoValves}, exhaust: { valve: 1.5 in } }`, exhaust: '{ primary: { diameter: 1-3/4 cm } }' },
  { exhaust: '{ collector: { diameter: 3 cm } }' },
  {
    heads: `{ ${twoValves}, intake: { valve: 1.94 in } }`,
    cam: '{ intake: { lobeLift: 0.68 in } }',
    valvetrain: '{ intakeRatio: 1.5 }',
  },
  { heads: `{ ${twoValves}, intake: { flow: fall.csv } }` },
  {
    fuel: '{ name: x, atoms: { C: 7, H: 14, O: 0 }, heatingValue: 90 MJ/kg, latentHeat: 300 kJ/kg, researchOctane: 98, motorOctane: 88 }',
  },
  { exhaust: '{ groups: [[1, 2], [2, 3]] }' },
  { induction: '{ manifold: single-plane, divider: { opening: 2 in2 } }' },
  { induction: '{ manifold: individual-throttles, restrictor: { bore: 20 mm } }' },
  { induction: '{ manifold: individual-throttles, airCleaner: { flow: 900 cfm } }' },
  { exhaust: '{ muffler: { flow: 600 cfm, backPressure: 1 psi } }' },
  { exhaust: '{ primary: { diameter: 1.75 in, inside: 1.6 in } }' },
  { exhaust: '{ primary: { diameter: 10 mm, wall: 4 mm } }' },
  { weather: '{ humidity: 40 %, dewPoint: 50 degF }' },
  { weather: '{ temperature: 60 degF, vapourPressure: 2 inHg }' },
  { mixture: '{ lambda: 0.9, airFuelRatio: 13 }' },
  { valvetrain: '{ intakeLash: 2 mm }', cam: '{ intake: { at050: 200 deg, lobeLift: 1.3 mm } }' },
  { engine: '{ bore: "about 4", stroke: 3.48 in, cylinders: 8 }' },
  {
    calibration:
      '{ sheets: [a.csv], knobs: [{ field: friction.multiplier, value: 1, spread: 0.1 }, { field: friction.multiplier, value: 1, spread: 0.1 }], correlation: [[1, 0], [0, 1]] }',
  },
  {
    calibration:
      '{ sheets: [a.csv], knobs: [{ field: friction.multiplier, value: 1, spread: 0.1 }], correlation: [[1, 0]] }',
  },
  { cam: '{ intake: { table: twisted.csv } }' },
];

const PIPES: readonly Readonly<Record<string, string>>[] = [
  {
    exhaust:
      '{ collector: none, secondary: { diameter: 2 in, length: 14 in }, balance: { diameter: 2 in, length: 12 in } }',
  },
  { exhaust: '{ primary: { lengths: [30 in, 31 in] } }' },
  {
    exhaust:
      '{ primary: { length: 30 in, steps: [{ after: 20 in, diameter: 1.8 in }, { after: 10 in, diameter: 1.9 in }] } }',
  },
];

/** Beside these: a list with one open point, a place of one machine, a tall lobe. */
const MORE: readonly Readonly<Record<string, string>>[] = [
  {
    heads: `{ ${twoValves}, intake: { flow: [{ lift: 0 in, flow: 0 cfm }, { lift: 0.2 in, flow: 60 cfm }] } }`,
  },
  { heads: `{ ${twoValves}, flow: /etc/flow.csv }` },
  {
    heads: `{ ${twoValves}, intake: { valve: 1.94 in } }`,
    cam: '{ intake: { lobeLift: 0.61 in } }',
    valvetrain: '{ intakeRatio: 1.5 }',
  },
];

const OTHER_SHEETS: Readonly<Record<string, string>> = {
  'other.csv': '# 10 inH2O\nlift in,intake cfm\n0.1,40\n0.3,100\n',
  'fall.csv': 'lift in,intake cfm\n0.1,0\n0.3,100\n0.4,80\n',
  'twisted.csv': `crank deg,lobe lift in\n${[0, 10, 5, 20, 30, 40, 50, 60, 70].map((at) => `${at},0.1`).join('\n')}\n`,
};

const DYNO: readonly string[] = [
  `${TOP.replace(',', ';')}3000;380,0\n3500;395.0\n`,
  `# humidity: 0.4\n${TOP}3000,380\n`,
  `# sweep rate: 300 rpm/s\n# 600 rpm/s\n${TOP}3000,380\n`,
  '# standard: J607\nrpm,torque (lb-ft),power (hp)\n3000,380.0,217.1\n3500,395.0,290.2\n',
  'PK\u0003\u0004\u0000',
  `# standard: J607\npull,rpm,torque (lb-ft)\n${Array.from({ length: 201 }, (_, i) => `${i},3000,300\n${i},4000,300\n`).join('')}`,
  `${TOP}3000,380\n3500,390\n3100,384\n3600,391\n3200,386\n3700,392\n`,
  `${TOP}${' '.repeat(9000)}\n`,
  'rpm,torque (lb-ft)\n3000,380\n',
  `# standard: J1349\n${TOP}3000,380\n`,
  '# standard: SAE\nrpm,torque (lb-ft)\n3000,380\n',
  '# standard: XYZ 1\nrpm,torque (lb-ft)\n3000,380\n',
];

const CHANGES: readonly string[] = [
  'changes:\n  - { name: a, set: { cam.advance: 2 deg } }\n  - { name: a, set: { cam.advance: 3 deg } }\n',
  'changes:\n  - { name: a }\n',
  'changes:\n  - { name: a, set: { cam.advnce: 3 deg } }\n',
  'changes:\n  - { name: a, set: { cam.advance: 3 deg, cam: { advance: 3 deg } } }\n',
  'changes:\n  - { name: a, set: { cam.advance } }\n',
  '- 1',
];

/** Changes that read well and don't suit the engine. */
const UNSUITED: readonly string[] = [
  'changes:\n  - { name: a, set: { chamber.compression: 9.5 } }\n',
  'changes:\n  - { name: a, scale: { induction.throttle.diameter: 2 } }\n',
  'changes:\n  - { name: a, scale: { weather.temperature: 2 } }\n',
];

function raised(): ReadonlySet<string> {
  const codes = new Set<string>();
  const keep = (list: readonly { readonly code: string }[]): void => {
    for (const { code } of list) codes.add(code);
  };
  const sheet = (name: string): string | undefined => OTHER_SHEETS[name] ?? SHEETS[name];
  const texts = [
    ...CASES.map(([, text]) => text),
    ...[...SECTIONS, ...PIPES, ...MORE].map(fileWith),
    many('a: 1\n'),
  ];
  for (const text of texts) {
    const read = readCombination(text, { file: 'e.yaml', sheet });
    keep(read.ok ? read.value.warnings : read.problems);
  }
  for (const text of DYNO) {
    const read = readDynoSheet(text, { name: 'x.csv' });
    if (!read.ok) keep(read.problems);
  }
  const against = readDynoSheet(`${TOP}3000,380\n3500,390\n`, { name: 'x.csv', standard: 'J1349' });
  if (!against.ok) keep(against.problems);
  for (const text of CHANGES) {
    const read = readChanges(text);
    if (!read.ok) keep(read.problems);
  }
  const document = readDocument(fileWith({}));
  const baseline = document.ok ? pinBaseline(document.value) : document;
  for (const text of UNSUITED) {
    const read = readChanges(text);
    if (!read.ok || !baseline.ok) throw new Error('these read well');
    const applied = applyChanges(baseline.value, read.value);
    if (!applied.ok) keep(applied.problems);
  }
  return codes;
}

const many = (line: string): string => line.repeat(150);

/** What every test of the project says, to look codes up in. */
function testTexts(): string {
  const root = join(import.meta.dirname, '../..');
  return ['packages/core/test', 'packages/cli/test', 'tests']
    .flatMap((folder) =>
      readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.test.ts') && !name.startsWith('docs/'))
        .map((name) => readFileSync(join(root, folder, name), 'utf8')),
    )
    .join('\n');
}

/**
 * Kept for what nobody thought of: values past every check that still don't fit together, and an unknown that can be drawn to
 * neither side.
 */
const LAST_RESORTS: ReadonlySet<string> = new Set(['inconsistent', 'unknown-skipped']);

const sought = (entries: readonly (readonly [string, ...unknown[]])[]): readonly string[] =>
  entries.map(([code]) => code).filter((code) => !LAST_RESORTS.has(code));

describe('the codes of messages', () => {
  const codes = raised();
  const texts = testTexts();

  it.each(sought([...FILE_PROBLEMS, ...ENGINE_PROBLEMS, ...SHEET_PROBLEMS]))(
    'are raised by a file: %s',
    (code) => expect(codes.has(code) || texts.includes(`'${code}'`)).toBe(true),
  );

  it.each(sought(WARNINGS))('are raised by a file or by the test of what computes them: %s', (code) => {
    expect(codes.has(code) || texts.includes(`'${code}'`)).toBe(true);
  });
});
