import { describe, expect, it } from 'vitest';
import { fileWith, readGood } from './files.ts';

const SHEETS: Readonly<Record<string, string>> = {
  'short.csv': 'lift in,intake cfm,exhaust cfm\n0.1,62,48\n0.2,120,90\n0.3,165,120\n0.35,180,128\n',
  'weak.csv': 'lift in,intake cfm,exhaust cfm\n0.1,62,30\n0.2,120,55\n0.3,165,75\n0.4,195,88\n0.5,205,95\n',
  'good.csv':
    'lift in,intake cfm,exhaust cfm\n0.1,62,48\n0.2,120,90\n0.3,165,120\n0.4,195,150\n0.5,205,158\n',
  'falls.csv':
    'lift in,intake cfm,exhaust cfm\n0.1,62,48\n0.2,120,90\n0.3,165,120\n0.4,205,140\n0.5,195,150\n',
  'extra.csv': 'lift in,intake cfm,exhaust cfm,swirl rpm\n0.1,62,48,300\n0.3,165,120,700\n0.5,205,150,\n',
};
const heads = (sheet: string, rest = ''): string =>
  `{ valvesPerCylinder: 2, flow: ${sheet}, intake: { valve: 1.94 in }, exhaust: { valve: 1.5 in }, ${rest} }`;

/** Sections of a file, and the doubts it raises apart from the correction standard. */
const CASES: readonly (readonly [
  what: string,
  sections: Record<string, string>,
  codes: readonly string[],
])[] = [
  ['nothing odd', { correction: 'none' }, []],
  ['no correction standard', {}, ['correction-assumed']],
  [
    'compression 0.2 off the volumes',
    { correction: 'none', chamber: '{ compression: 10.5, volume: 64 cc }' },
    ['compression-disagrees'],
  ],
  [
    'compression 0.05 off the volumes',
    { correction: 'none', chamber: '{ compression: 10.4, volume: 64 cc }' },
    [],
  ],
  [
    'a sheet that ends below the lift',
    { correction: 'none', heads: heads('short.csv') },
    ['lift-beyond-sheet', 'lift-beyond-sheet'],
  ],
  ['a weak exhaust', { correction: 'none', heads: heads('weak.csv') }, ['exhaust-over-intake']],
  ['flow that falls with lift', { correction: 'none', heads: heads('falls.csv') }, ['flow-falls']],
  [
    'an exhaust port hardly larger than its valve opens',
    {
      correction: 'none',
      heads: `{ valvesPerCylinder: 2, flow: good.csv, intake: { valve: 1.94 in }, exhaust: { valve: 1.5 in, portArea: 1.08 in2 } }`,
      cam: '{ exhaust: { lobeLift: 0.33 in } }',
    },
    ['port-chokes'],
  ],
  ['a column nobody reads', { correction: 'none', heads: heads('extra.csv') }, ['columns-ignored']],
  [
    'a rated speed that the ports of such a bore do not feed',
    { correction: 'none', engine: '{ bore: 4.03 in, stroke: 3.4 in, cylinders: 8, ratedSpeed: 9000 rpm }' },
    ['ports-small'],
  ],
  [
    'a rated speed at which a rule that is good to a tenth still allows for the ports',
    {
      correction: 'none',
      engine: '{ bore: 4.1 in, stroke: 3.2 in, cylinders: 8, layout: v, ratedSpeed: 8350 rpm }',
    },
    [],
  ],
  [
    'one a little above, at which it does not',
    {
      correction: 'none',
      engine: '{ bore: 4.1 in, stroke: 3.2 in, cylinders: 8, layout: v, ratedSpeed: 8500 rpm }',
    },
    ['ports-small'],
  ],
  [
    'a cam for such a speed beside ports as cast',
    { correction: 'none', cam: '{ intake: { at050: 262 deg } }' },
    ['ports-small'],
  ],
  [
    'that speed, with the valves and ports of such an engine',
    {
      correction: 'none',
      engine: '{ bore: 4.03 in, stroke: 3.4 in, cylinders: 8, ratedSpeed: 9000 rpm }',
      heads: '{ valvesPerCylinder: 2, ports: fully-ported, intake: { valve: 2.2 in } }',
    },
    [],
  ],
  [
    'a speed that engines are made for',
    { correction: 'none', engine: '{ bore: 4.03 in, stroke: 3.4 in, cylinders: 8, ratedSpeed: 6000 rpm }' },
    [],
  ],
  [
    'a larger fixture',
    { correction: 'none', heads: heads('weak.csv', 'bench: { fixture: 4.155 in }') },
    ['exhaust-over-intake', 'bore-fixture'],
  ],
  [
    'lash on hydraulic lifters',
    { correction: 'none', cam: '{ lifter: hydraulic-roller }', valvetrain: '{ intakeLash: 0.010 in }' },
    ['lash-band'],
  ],
  [
    'lash of 0.060 in',
    { correction: 'none', cam: '{ lifter: solid-roller }', valvetrain: '{ intakeLash: 0.060 in }' },
    ['lash-band'],
  ],
  [
    'a two-barrel rated like a four-barrel',
    { correction: 'none', induction: '{ carburetor: { rating: 500 cfm, barrels: 2, ratedAt: 1.5 inHg } }' },
    ['carburetor-basis'],
  ],
  [
    'a rating without barrels',
    { correction: 'none', induction: '{ carburetor: { rating: 500 cfm } }' },
    ['carburetor-basis'],
  ],
  [
    'valve lift without the ratio it is for',
    { correction: 'none', cam: '{ intake: { valveLift: 0.477 in } }' },
    ['card-ratio'],
  ],
  [
    'valve lift of a lobe that lifts the valve itself',
    {
      correction: 'none',
      valvetrain: '{ type: direct-acting }',
      cam: '{ intake: { valveLift: 0.400 in } }',
    },
    [],
  ],
];

describe('a file with', () => {
  it.each(CASES)('%s is read, with its doubts by code', (_, sections, codes) => {
    const { warnings } = readGood(fileWith(sections), (name) => SHEETS[name]);
    expect(warnings.map((warning) => warning.code)).toEqual(codes);
  });

  it('a ratio beside volumes of no chamber is told what decides, and where the gap over the squish goes', () => {
    const chamber = '{ compression: 9.5, dome: 3 cc, gasketThickness: 1 mm }';
    const { warnings } = readGood(fileWith({ correction: 'none', chamber }));
    expect(warnings.map(({ path, message }) => `${path} ${message}`)).toEqual([
      'chamber.dome is of no use: the stated chamber.compression decides; to have the volumes decide, state chamber.volume',
      'chamber.gasketThickness is of no use: the stated chamber.compression decides; to have the volumes decide, state chamber.volume. The gap over the squish is chamber.squishHeight',
    ]);
  });

  it('a little more lift than its sheet is not remarked on', () => {
    const told = (lift: string): readonly string[] =>
      readGood(
        fileWith({
          correction: 'none',
          heads: '{ valvesPerCylinder: 2, flow: short.csv }',
          valvetrain: '{ type: direct-acting }',
          cam: `{ intake: { lobeLift: ${lift} }, exhaust: { lobeLift: 0.30 in } }`,
        }),
        (name) => SHEETS[name],
      ).warnings.map(({ code }) => code);
    expect(told('0.356 in')).toEqual([]);
    expect(told('0.360 in')).toEqual(['lift-beyond-sheet']);
  });

  it('results in SI is answered in millimetres, another in inches', () => {
    const told = (units: string): string => {
      const sections = { correction: 'none', units, heads: heads('short.csv') };
      const { warnings } = readGood(fileWith(sections), (name) => SHEETS[name]);
      return warnings.find(({ path }) => path === 'heads.flow')?.message ?? '';
    };
    expect(told('trade')).toContain('the sheet ends at 0.35 in');
    expect(told('si')).toContain('the sheet ends at 8.89 mm');
  });
});
