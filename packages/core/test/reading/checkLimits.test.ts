/** Limits of checks: what lies just within is read without a word, what lies just beyond is answered by its code. */
import { expect, it } from 'vitest';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith } from './files.ts';

type Sections = Readonly<Record<string, string>>;
type Limit = readonly [what: string, code: string, within: readonly Sections[], beyond: readonly Sections[]];

const engine = (rest: string): Sections => ({ engine: `{ bore: 100 mm, stroke: 100 mm, ${rest} }` });
const chamber = (text: string): Sections => ({ ...engine('cylinders: 4'), chamber: `{ ${text} }` });
const heads = (text: string): Sections => ({
  ...engine('cylinders: 4'),
  heads: `{ valvesPerCylinder: 2, ${text} }`,
});
const cam = (text: string, rest: Sections = {}): Sections => ({ cam: `{ ${text} }`, ...rest });
const intake = (text: string, rest: Sections = {}): Sections => cam(`intake: { ${text} }`, rest);
const exhaust = (text: string): Sections => ({ ...engine('cylinders: 4'), exhaust: `{ ${text} }` });
const section =
  (name: string) =>
  (text: string): Sections => ({ ...engine('cylinders: 4'), [name]: `{ ${text} }` });
const [burn, weather, mixture, induction] = ['burn', 'weather', 'mixture', 'induction'].map(section);
const flow = (points: string): Sections =>
  heads(`bench: { depression: 28 inH2O }, intake: { flow: [${points}] }`);
const point = (lift: string, cfm: number): string => `{ lift: ${lift}, flow: ${cfm} cfm }`;
/** Gasoline of eight carbons: Dulong's rule gives it 46.5 MJ/kg. */
const fuel = (rest: string): Sections => ({
  fuel: `{ name: own, atoms: { C: 8, H: 16, O: 0 }, latentHeat: 0.35 MJ/kg, researchOctane: 95, motorOctane: 85, ${rest} }`,
});

const LIMITS: readonly Limit[] = [
  [
    'rod over stroke, 1.1 to 3.5',
    'rod',
    [engine('cylinders: 4, rod: 111 mm'), engine('cylinders: 4, rod: 349 mm')],
    [engine('cylinders: 4, rod: 109 mm'), engine('cylinders: 4, rod: 351 mm')],
  ],
  [
    'intervals that add up to 720 deg within half a degree',
    'firing-intervals',
    [
      engine('cylinders: 2, firingIntervals: [360 deg, 360.4 deg]'),
      engine('cylinders: 2, firingIntervals: [360 deg, 359.6 deg]'),
    ],
    [
      engine('cylinders: 2, firingIntervals: [360 deg, 360.6 deg]'),
      engine('cylinders: 2, firingIntervals: [360 deg, 359.4 deg]'),
      engine('cylinders: 2, firingIntervals: [240 deg, 240 deg, 240 deg]'),
    ],
  ],
  [
    'each cylinder once in the firing order',
    'firing-order',
    [engine('cylinders: 4, firingOrder: 1-2-4-3'), engine('cylinders: 9, firingOrder: 1-2-3-4-5-6-7-8-9')],
    [
      engine('cylinders: 4, firingOrder: 1-2-4'),
      engine('cylinders: 4, firingOrder: 1-2-4-5'),
      engine('cylinders: 9'),
    ],
  ],
  [
    'a chamber that says how much it compresses',
    'compression-missing',
    [chamber('compression: 9'), chamber('volume: 80 cc')],
    [chamber('shape: wedge')],
  ],
  [
    'volumes beside a chamber volume',
    'volume-missing',
    [chamber('volume: 80 cc, dish: 4 cc'), chamber('compression: 9, dish: 4 cc')],
    [chamber('dish: 4 cc')],
  ],
  [
    'a dome smaller than what is around it: 40 cc, a gasket of 1 mm and a deck of 1 mm make 55.7',
    'dome',
    [chamber('volume: 40 cc, deck: 1 mm, gasketThickness: 1 mm, dome: 0.1 cc')],
    [chamber('volume: 40 cc, deck: 1 mm, gasketThickness: 1 mm, dome: 55.8 cc')],
  ],
  [
    'a piston no prouder than its gasket',
    'deck',
    [chamber('volume: 80 cc, deck: -0.9 mm, gasketThickness: 1 mm')],
    [chamber('volume: 80 cc, deck: -1 mm, gasketThickness: 1 mm')],
  ],
  [
    'a gasket of 0.98 bores',
    'gasket-bore',
    [chamber('volume: 80 cc, gasketBore: 98.1 mm')],
    [chamber('volume: 80 cc, gasketBore: 97.9 mm')],
  ],
  [
    'volumes that make a ratio of 4 to 20',
    'compression-impossible',
    [chamber('volume: 200 cc'), chamber('volume: 32 cc')],
    [chamber('volume: 300 cc'), chamber('volume: 18 cc')],
  ],
  [
    'a throat smaller than its valve',
    'throat',
    [heads('intake: { valve: 46 mm, throat: 45 mm }')],
    [heads('intake: { valve: 46 mm, throat: 46 mm }')],
  ],
  [
    'a stem less than half its valve',
    'stem',
    [heads('exhaust: { valve: 36 mm, stem: 12 mm }')],
    [heads('exhaust: { valve: 36 mm, stem: 18 mm }')],
  ],
  [
    'a smallest area no larger than the mean',
    'port-area',
    [heads('intake: { minimumArea: 12 cm2, portArea: 12 cm2 }')],
    [heads('intake: { minimumArea: 12.1 cm2, portArea: 12 cm2 }')],
  ],
  [
    'valves that add up',
    'valve-count',
    [
      { heads: '{ valvesPerCylinder: 4, intake: { valves: 2 } }' },
      { heads: '{ valvesPerCylinder: 3, intake: { valves: 2 }, exhaust: { valves: 1 } }' },
    ],
    [
      { heads: '{ valvesPerCylinder: 4, intake: { valves: 3 } }' },
      { heads: '{ valvesPerCylinder: 3, exhaust: { valves: 2 } }' },
    ],
  ],
  [
    'durations that fall with height',
    'duration-order',
    [intake('advertised: 280 deg, at050: 230 deg, at200: 140 deg')],
    [
      intake('advertised: 230 deg, at050: 230 deg'),
      intake('at050: 230 deg, at200: 230 deg'),
      intake('advertised: 230 deg, at200: 230 deg'),
    ],
  ],
  [
    'a lobe higher than the heights it is measured at',
    'lobe-lift',
    [intake('at050: 230 deg, lobeLift: 0.24 in')],
    [intake('at050: 230 deg, lobeLift: 0.05 in'), intake('at050: 230 deg, at200: 20 deg, lobeLift: 0.2 in')],
  ],
  [
    'lift within 2 % of lobe times rocker',
    'lift-disagrees',
    [
      intake('lobeLift: 0.3 in, valveLift: 0.458 in', { valvetrain: '{ intakeRatio: 1.5 }' }),
      intake('lobeLift: 0.3 in, valveLift: 0.442 in', { valvetrain: '{ intakeRatio: 1.5 }' }),
    ],
    [
      intake('lobeLift: 0.3 in, valveLift: 0.460 in', { valvetrain: '{ intakeRatio: 1.5 }' }),
      intake('lobeLift: 0.3 in, valveLift: 0.440 in', { valvetrain: '{ intakeRatio: 1.5 }' }),
    ],
  ],
  ['a card or a table', 'cam-twice', [], [intake('table: lobe.csv, lobeLift: 8 mm')]],
  [
    'centrelines of the separation',
    'separation-disagrees',
    [cam('separation: 110 deg, intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg }')],
    [cam('separation: 110 deg, intake: { centreline: 106 deg }, exhaust: { centreline: 118 deg }')],
  ],
  [
    'an advance of separation less centreline',
    'advance-disagrees',
    [
      cam('separation: 110 deg, advance: 4 deg, intake: { centreline: 106 deg }'),
      cam('advance: 4 deg, intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg }'),
    ],
    [
      cam('separation: 110 deg, advance: 6 deg, intake: { centreline: 106 deg }'),
      cam('separation: 110 deg, advance: 2 deg, intake: { centreline: 106 deg }'),
      cam('advance: 8 deg, intake: { centreline: 106 deg }, exhaust: { centreline: 114 deg }'),
    ],
  ],
  [
    'carburetor or throttle',
    'metering-twice',
    [induction('throttle: { diameter: 60 mm }')],
    [induction('throttle: { diameter: 60 mm }, carburetor: { rating: 500 cfm }')],
  ],
  [
    'lambda or a ratio',
    'mixture-twice',
    [mixture('lambda: 0.9'), mixture('airFuelRatio: 13')],
    [mixture('lambda: 0.9, airFuelRatio: 13')],
  ],
  [
    'one difference a cylinder, within what burns',
    'by-cylinder',
    [mixture('lambda: 0.9, differences: [0, 0.01, 0, -0.01]')],
    [mixture('lambda: 0.9, differences: [0, 0.01, -0.01]'), chamber('compressions: [9, 9, 9]')],
  ],
  [
    'mixtures of 0.5 to 1.6',
    'out-of-range',
    [
      mixture('lambda: 0.6, differences: [0, 0.09, 0, -0.09]'),
      mixture('lambda: 1.5, differences: [0, 0.09, 0, -0.09]'),
    ],
    [
      mixture('lambda: 0.6, differences: [0.11, 0, 0, -0.11]'),
      mixture('lambda: 1.5, differences: [0, 0.11, 0, -0.11]'),
    ],
  ],
  [
    'groups of collectors',
    'groups',
    [exhaust('groups: [[1, 4], [2, 3]]')],
    [exhaust('groups: [[1, 4], [2]]'), exhaust('collector: none, groups: [[1, 4], [2, 3]]')],
  ],
  [
    'a muffler by flow or by pressure, with a box of its kind',
    'muffler',
    [
      exhaust('muffler: { flow: 600 cfm }'),
      exhaust('muffler: { backPressure: 2 psi }'),
      exhaust('muffler: chambered, box: { kind: chambered }'),
    ],
    [
      exhaust('muffler: { flow: 600 cfm, backPressure: 2 psi }'),
      exhaust('muffler: { at: 1.5 inHg }'),
      exhaust('muffler: chambered, box: { kind: straight-through }'),
      exhaust('muffler: open, box: { kind: chambered }'),
      exhaust('box: { kind: chambered }'),
    ],
  ],
  [
    'a length of all or of each',
    'primary-lengths',
    [exhaust('primary: { lengths: [700 mm, 720 mm, 700 mm, 720 mm] }')],
    [
      exhaust('primary: { lengths: [700 mm, 720 mm, 700 mm] }'),
      exhaust('primary: { length: 700 mm, lengths: [700 mm, 720 mm, 700 mm, 720 mm] }'),
    ],
  ],
  [
    'steps one behind the other, before the end',
    'primary-step',
    [
      exhaust(
        'primary: { length: 700 mm, steps: [{ after: 200 mm, inside: 44 mm }, { after: 400 mm, inside: 46 mm }] }',
      ),
    ],
    [
      exhaust(
        'primary: { length: 700 mm, steps: [{ after: 400 mm, inside: 44 mm }, { after: 400 mm, inside: 46 mm }] }',
      ),
      exhaust('primary: { length: 700 mm, steps: [{ after: 700 mm, inside: 44 mm }] }'),
      exhaust('primary: { length: 700 mm, steps: [{ after: 200 mm }] }'),
    ],
  ],
  [
    'first merges of each cylinder within a collector',
    'secondary',
    [exhaust('secondary: { groups: [[1, 4], [2, 3]] }')],
    [
      exhaust('secondary: { groups: [[1, 4], [2, 2]] }'),
      exhaust('secondary: { groups: [[1, 4]] }'),
      exhaust('groups: [[1, 4], [2, 3]], secondary: { groups: [[1, 2], [3, 4]] }'),
      exhaust('collector: none, secondary: { inside: 45 mm }'),
    ],
  ],
  [
    'a tube between two collectors, along them',
    'balance',
    [exhaust('groups: [[1, 4], [2, 3]], collector: { length: 400 mm }, balance: { at: 399 mm }')],
    [
      exhaust('groups: [[1, 4], [2, 3]], collector: { length: 400 mm }, balance: { at: 401 mm }'),
      exhaust('balance: {}'),
      exhaust('collector: none, balance: {}'),
    ],
  ],
  [
    'a pipe by inside or outside',
    'pipe-twice',
    [exhaust('primary: { inside: 40 mm }')],
    [
      exhaust('primary: { inside: 40 mm, diameter: 42 mm }'),
      exhaust('collector: { inside: 50 mm, diameter: 52 mm }'),
      exhaust('secondary: { inside: 45 mm, diameter: 47 mm }'),
      exhaust('groups: [[1, 4], [2, 3]], balance: { inside: 45 mm, diameter: 47 mm }'),
      exhaust('muffler: chambered, box: { pipe: { inside: 45 mm, diameter: 47 mm } }'),
    ],
  ],
  [
    'a wall under a quarter of its tube',
    'pipe-wall',
    [exhaust('primary: { diameter: 40 mm, wall: 3 mm }')],
    [exhaust('primary: { diameter: 40 mm, wall: 10 mm }')],
  ],
  [
    'timing that has its figures',
    'timing',
    [
      burn('timing: ca50, ca50: 9 deg'),
      burn('spark: [{ rpm: 2000 rpm, advance: 25 deg }, { rpm: 4000 rpm, advance: 30 deg }]'),
    ],
    [
      burn('timing: ca50'),
      burn('timing: spark'),
      burn('ca50: 9 deg, spark: [{ rpm: 2000 rpm, advance: 25 deg }]'),
      burn('spark: [{ rpm: 2000 rpm, advance: 25 deg }, { rpm: 2000 rpm, advance: 30 deg }]'),
    ],
  ],
  [
    'heat within a quarter of its atoms',
    'fuel-heat',
    [fuel('heatingValue: 57 MJ/kg'), fuel('heatingValue: 36 MJ/kg')],
    [fuel('heatingValue: 59 MJ/kg'), fuel('heatingValue: 34 MJ/kg')],
  ],
  [
    'one way to say what air is damp',
    'humidity-twice',
    [weather('temperature: 25 degC, dewPoint: 15 degC')],
    [weather('temperature: 25 degC, humidity: 40 %, dewPoint: 15 degC')],
  ],
  [
    'a dew point no warmer than its air',
    'dew-point',
    [weather('temperature: 25 degC, dewPoint: 25 degC')],
    [weather('temperature: 25 degC, dewPoint: 26 degC')],
  ],
  // Water boils at 3.17 kPa where it has 25 degC.
  [
    'vapour that air can hold',
    'vapour-pressure',
    [weather('temperature: 25 degC, vapourPressure: 3.1 kPa')],
    [weather('temperature: 25 degC, vapourPressure: 3.3 kPa')],
  ],
  [
    'lifts that rise',
    'flow-lift',
    [flow(`${point('2 mm', 50)}, ${point('6 mm', 140)}`)],
    [flow(`${point('2 mm', 50)}, ${point('2 mm', 60)}, ${point('6 mm', 140)}`)],
  ],
  [
    'two points with the valve open',
    'flow-points',
    [flow(`${point('2 mm', 50)}, ${point('6 mm', 140)}`)],
    [flow(`${point('0 mm', 0)}, ${point('6 mm', 140)}`)],
  ],
  [
    'valves that fit abreast',
    'valves-too-large',
    [heads('intake: { valve: 50 mm }, exhaust: { valve: 40 mm }')],
    [heads('intake: { valve: 62 mm }, exhaust: { valve: 50 mm }')],
  ],
  [
    'lash of hydraulic and of solid lifters',
    'lash-band',
    [cam('lifter: solid-flat', { valvetrain: '{ intakeLash: 0.018 in, exhaustLash: 0.018 in }' })],
    [
      cam('lifter: hydraulic-flat', { valvetrain: '{ intakeLash: 0.01 in }' }),
      cam('lifter: solid-flat', { valvetrain: '{ intakeLash: 0.05 in, exhaustLash: 0.018 in }' }),
      cam('lifter: solid-flat', { valvetrain: '{ intakeLash: 0 in, exhaustLash: 0.018 in }' }),
    ],
  ],
  [
    'ratings at the pressure of their barrels',
    'carburetor-basis',
    [
      induction('carburetor: { rating: 600 cfm, barrels: 4, ratedAt: 1.5 inHg }'),
      induction('carburetor: { rating: 400 cfm, barrels: 2, ratedAt: 3 inHg }'),
    ],
    [
      induction('carburetor: { rating: 600 cfm, barrels: 4, ratedAt: 3 inHg }'),
      induction('carburetor: { rating: 400 cfm, barrels: 2, ratedAt: 1.5 inHg }'),
      induction('carburetor: { rating: 600 cfm }'),
    ],
  ],
];

function codesOf(sections: Sections): readonly string[] {
  const read = readCombination(fileWith({ correction: 'none', ...sections }), { sheet: () => undefined });
  return read.ok ? read.value.warnings.map(({ code }) => code) : read.problems.map(({ code }) => code);
}

it.each(LIMITS.flatMap(([what, code, within]) => within.map((sections) => [what, code, sections] as const)))(
  '%s: just within there is no word of %s',
  (_what, code, sections) => {
    expect(codesOf(sections)).not.toContain(code);
    // Refused for something else, it would show nothing.
    const read = readCombination(fileWith({ correction: 'none', ...sections }));
    expect(read.ok ? [] : read.problems).toEqual([]);
  },
);

it.each(
  LIMITS.flatMap(([what, code, , beyond]) => beyond.map((sections) => [what, code, sections] as const)),
)('%s: just beyond it is answered by %s', (_what, code, sections) => {
  expect(codesOf(sections)).toContain(code);
});
