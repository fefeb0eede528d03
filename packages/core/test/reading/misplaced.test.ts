/** A field in a section that doesn't have it, or named together with its section, is told where it belongs. */
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fieldPaths } from '../../src/reading/schema/fieldPaths.ts';
import { fileWith } from './files.ts';

const told = (sections: Readonly<Record<string, string>>): string => {
  const read = readCombination(fileWith(sections), { file: 'e.yaml' });
  return read.ok ? '' : read.problems.map(problemLine).join(' | ');
};
const heads = (rest: string): Readonly<Record<string, string>> => ({
  heads: `{ valvesPerCylinder: 2, ${rest} }`,
});
const engine = (rest: string): Readonly<Record<string, string>> => ({
  engine: `{ bore: 4.000 in, stroke: 3.480 in, cylinders: 8, ${rest} }`,
});

describe('a field that is misplaced', () => {
  it.each([
    [
      'named together with its section',
      heads('intakeValve: 2.02 in'),
      'heads.intakeValve is not a field of this file (write intake: { valve: 2.02 in })',
    ],
    [
      'named before its section, with dashes',
      heads('valve-intake: 2.02 in'),
      '(write intake: { valve: 2.02 in })',
    ],
    [
      'named together with its section, and misspelt',
      { exhaust: '{ colectorLength: 10 in, primaryDiamter: 1.75 in }' },
      'exhaust.primaryDiamter is not a field of this file (write primary: { diameter: 1.75 in })',
    ],
    [
      'named together with its section, in a word of the trade',
      { cam: '{ intakeDuration: 230 deg }' },
      '(in cam.intake: an advertised duration is advertised: 280 deg',
    ],
    [
      'two sections down',
      { exhaustPrimaryLength: '30 in' },
      '(write exhaust: { primary: { length: 30 in } })',
    ],
    [
      'one section too high',
      { exhaust: '{ mergeVolume: 200 cc }' },
      '(it belongs in exhaust.secondary or exhaust.collector)',
    ],
    [
      'one section too high, of one alone',
      { induction: '{ rating: 750 cfm }' },
      '(write carburetor: { rating: 750 cfm })',
    ],
    ['one section too low', heads('intake: { ports: as-cast }'), '(it belongs in heads: { ports: as-cast })'],
    ['in another section', engine('compression: 10.5'), '(it belongs in chamber: { compression: 10.5 })'],
    ['in none', { bore: '4.000 in' }, 'bore is not a field of this file (write engine: { bore: 4.000 in })'],
    [
      'named together with another section',
      heads('chamberVolume: 64 cc'),
      '(it belongs in chamber: { volume: 64 cc })',
    ],
    ['a whole section too low', engine('chamber: { volume: 64 cc }'), '(it stands beside engine, not in it)'],
    ['with dots', { 'engine.rod': '5.7 in' }, '(write engine: { rod: … })'],
    [
      'in a section that is none',
      { running: '{ ratedSpeed: 6500 rpm }' },
      'running is not a field of this file (ratedSpeed: it belongs in engine: { ratedSpeed: 6500 rpm })',
    ],
    ['a section of its own', { carburetor: '{ rating: 750 cfm }' }, '(write induction: { carburetor: … })'],
  ])('%s is told where it belongs', (_what, sections, line) => {
    expect(told(sections)).toContain(line);
  });

  it.each([
    ['words where the field takes a temperature', { chamber: '{ compression: 10, piston: flat }' }, 'heat'],
    ['a kind of another thing', { induction: '{ type: carburetor }' }, 'valvetrain'],
    [
      'the degrees of a lobe where the field takes those of a burn',
      { valvetrain: '{ duration: 270 deg }' },
      'burn',
    ],
  ])('is not sent to a field of its name that does not take it: %s', (_what, sections, other) => {
    expect(told(sections)).toContain('known here: ');
    expect(told(sections)).not.toContain(other);
  });

  it('a word that is cut short is told the whole one', () => {
    expect(told({ weather: '{ temp: 70 degF }' })).toContain('(did you mean temperature?)');
    expect(told({ chamber: '{ comp: 10 }' })).toContain('(did you mean compression?)');
    // Three columns begin so.
    expect(told(heads('intake: { port: 2 in }'))).toContain('known here: ');
  });

  it('every field of a section within a section is found by both names in one', () => {
    const within = fieldPaths().filter((path) => path.split('.').length === 3);
    expect(within.length).toBeGreaterThan(80);
    for (const path of within) {
      const [top, section, name] = path.split('.');
      const base = top === 'engine' || top === 'chamber' || top === 'heads' ? fileWith({}).split('\n') : [];
      const text = [
        ...base.filter((line) => !line.startsWith(`${top}:`)),
        `${top}: { ${section}-${name}: 3 }`,
      ];
      const read = readCombination(text.join('\n'));
      const lines = read.ok ? [] : read.problems.map(problemLine);
      expect(
        lines.filter((line) => line.includes(`${section}: { ${name}: 3 }`)),
        path,
      ).toHaveLength(1);
    }
  });
});
