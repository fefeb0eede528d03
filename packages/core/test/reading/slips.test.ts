/** Likely slips ask back, and fields that do nothing are told. */
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { FUEL_NAMES } from '../../src/gas/fuels.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { combinationSchema } from '../../src/reading/schema/combinationSchema.ts';
import { fileWith, readGood } from './files.ts';

const lines = (sections: Readonly<Record<string, string>>): readonly string[] => {
  const result = readCombination(fileWith(sections), { file: 'e.yaml' });
  return result.ok ? [] : result.problems.map(problemLine);
};
const heads = '{ valvesPerCylinder: 2, intake: { valve: 1.94 in }, exhaust: { valve: 1.5 in } }';
const fuel = (heat: string): string =>
  `{ name: own, atoms: { C: 7.5, H: 14, O: 0 }, heatingValue: ${heat}, latentHeat: 350 kJ/kg, researchOctane: 98, motorOctane: 88 }`;

describe('a likely slip asks back', () => {
  it.each([
    [
      'a primary in centimetres',
      { heads, exhaust: '{ primary: { diameter: 1-3/4 cm } }' },
      'exhaust.primary.diameter is 0.591 in inside, too narrow for an exhaust valve of 1.5 in (did you mean 1-3/4 in?)',
    ],
    [
      'a duration in cam degrees',
      { cam: '{ intake: { at050: 112 deg } }' },
      "cam.intake.at050 is shorter than any cam's: 112 deg (in cam degrees? write crank degrees, 224 deg)",
    ],
    [
      'a duration whose degrees are not whole in binary',
      { cam: '{ intake: { at050: 122.2 deg } }' },
      "cam.intake.at050 is shorter than any cam's: 122.2 deg (in cam degrees? write crank degrees, 244.4 deg)",
    ],
    [
      'a duration that no cam has',
      { cam: '{ intake: { at050: 343 deg } }' },
      "cam.intake.at050 is longer than any cam's at 0.050 in: 343 deg (is it the advertised duration?)",
    ],
    [
      'valve lift as lobe lift',
      { heads, cam: '{ intake: { at050: 230 deg, lobeLift: 0.68 in } }', valvetrain: '{ intakeRatio: 1.5 }' },
      'cam.intake.lobeLift of 0.68 in would lift a valve of 1.94 in by 1.02 in (is it the lift at the valve? write valveLift)',
    ],
    [
      'an air-fuel ratio as lambda',
      { mixture: '{ lambda: 12.9 }' },
      'mixture.lambda is impossible: 12.9 must be at most 1.6 (an air-fuel ratio? write airFuelRatio: 12.9)',
    ],
    [
      'a research octane number as a pump fuel',
      { fuel: 'pump-98' },
      `known: ${FUEL_NAMES.join(', ')}; pump fuels by antiknock index, (R+M)/2)`,
    ],
    [
      'a decimal comma between braces, and nothing is asked of the number before it',
      { mixture: '{ lambda: 0,9 }' },
      'mixture.lambda',
    ],
    [
      'a bore without unit',
      { engine: '{ bore: 4.03, stroke: 3.48 in, cylinders: 8 }' },
      'engine.bore needs a length with its unit, such as 4.03 in',
    ],
    [
      'a bore without unit that could not be inches',
      { engine: '{ bore: 81, stroke: 3.48 in, cylinders: 8 }' },
      'engine.bore needs a length with its unit, such as 81 mm: 81 alone could be anything',
    ],
    [
      'a tube by its fraction alone',
      { exhaust: '{ primary: { diameter: 1-5/8, length: 32 in } }' },
      "exhaust.primary.diameter needs a unit: '1-5/8' could be anything (write it like 1-5/8 in)",
    ],
    [
      'a heating value that its atoms deny',
      { fuel: fuel('120 MJ/kg') },
      'fuel.heatingValue is 120.0 MJ/kg; these atoms give about 46 MJ/kg',
    ],
    [
      'more vapour than air holds',
      { weather: '{ temperature: 68 degF, vapourPressure: 1.2 inHg }' },
      'weather.vapourPressure is more than air of this temperature can hold, 0.69 inHg',
    ],
  ])('%s', (_what, sections, line) => {
    const told = lines(sections);
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(line);
    expect(told[0]).toMatch(/^e\.yaml:\d+:\d+ /u);
  });

  it.each([
    ['the fuels of the trade', { fuel: fuel('43 MJ/kg') }],
    ['air that is full of vapour', { weather: '{ temperature: 68 degF, vapourPressure: 0.68 inHg }' }],
    [
      'a tall lobe that a large valve bears',
      {
        cam: '{ intake: { at050: 270 deg, lobeLift: 0.48 in } }',
        heads: '{ valvesPerCylinder: 2, intake: { valve: 2.3 in } }',
        engine: '{ bore: 4.5 in, stroke: 4 in, cylinders: 8 }',
        valvetrain: '{ intakeRatio: 1.7 }',
      },
    ],
    [
      'an exhaust valve lifted by half its diameter, as race engines do',
      {
        cam: '{ intake: { at050: 268 deg }, exhaust: { at050: 274 deg, lobeLift: 0.43 in } }',
        heads: '{ valvesPerCylinder: 2, intake: { valve: 2.15 in }, exhaust: { valve: 1.58 in } }',
        engine: '{ bore: 4.2 in, stroke: 3.3 in, cylinders: 8 }',
        valvetrain: '{ intakeRatio: 1.95, exhaustRatio: 1.95 }',
      },
    ],
  ])('but not %s', (_what, sections) => expect(lines(sections)).toEqual([]));
});

const four = '{ bore: 86 mm, stroke: 86 mm, cylinders: 4 }';
const fourValves = (intake: string, exhaust = ''): string =>
  `{ valvesPerCylinder: 4, intake: { ${intake} }, exhaust: { ${exhaust} } }`;

describe('a bore in a wrong unit asks back, with the unit that suits', () => {
  it.each([
    ['primary, outside', { exhaust: '{ primary: { diameter: 1.75 cm } }' }, '1.75 in'],
    ['primary, inside', { exhaust: '{ primary: { inside: 1.75 cm } }' }, '1.75 in'],
    ['primary in inches', { engine: four, exhaust: '{ primary: { inside: 4.2 in } }' }, '4.2 cm'],
    [
      'step of a primary',
      {
        exhaust:
          '{ primary: { diameter: 1.75 in, length: 30 in, steps: [{ after: 15 in, diameter: 1.875 cm }] } }',
      },
      '1.875 in',
    ],
    ['secondary', { exhaust: '{ secondary: { diameter: 2 cm, length: 14 in } }' }, '2 in'],
    ['collector', { exhaust: '{ collector: { diameter: 3 cm, length: 14 in } }' }, '3 in'],
    ['tail-pipe', { exhaust: '{ muffler: chambered, box: { pipe: { diameter: 2.5 cm } } }' }, '2.5 in'],
    [
      'balance tube',
      { exhaust: '{ collector: { diameter: 3 in }, balance: { diameter: 2 cm, length: 12 in } }' },
      '2 in',
    ],
    ['intake valve', { heads: '{ valvesPerCylinder: 2, intake: { valve: 1.94 cm } }' }, '1.94 in'],
    ['exhaust valve', { heads: '{ valvesPerCylinder: 2, exhaust: { valve: 1.5 cm } }' }, '1.5 in'],
    ['throat', { heads: '{ valvesPerCylinder: 2, intake: { valve: 2.02 in, throat: 1.75 cm } }' }, '1.75 in'],
    ['port', { engine: four, heads: fourValves('portArea: 9.5 in2') }, '9.5 cm2'],
    ['smallest section', { heads: '{ valvesPerCylinder: 2, intake: { minimumArea: 1.9 cm2 } }' }, '1.9 in2'],
    ['runner', { induction: '{ runner: { entryArea: 2.8 cm2, exitArea: 2.4 in2 } }' }, '2.8 in2'],
    ['throttle', { engine: four, induction: '{ throttle: { diameter: 2.4 cm } }' }, '2.4 in'],
    [
      'own throttles',
      {
        engine: four,
        heads: '{ valvesPerCylinder: 4 }',
        induction: '{ manifold: individual-throttles, throttle: { diameter: 1.75 cm } }',
      },
      '1.75 in',
    ],
    ['restrictor', { induction: '{ restrictor: { kind: plate, bore: 1 cm, bores: 4 } }' }, '1 in'],
    [
      'inlet duct',
      {
        engine: four,
        induction: '{ throttle: { diameter: 60 mm }, inletDuct: { inside: 2.5 cm, length: 12 in } }',
      },
      '2.5 in',
    ],
    [
      'spacer',
      {
        induction:
          '{ carburetor: { rating: 650 cfm, barrels: 4 }, spacer: { kind: four-hole, height: 1 in, bore: 1.69 cm } }',
      },
      '1.69 in',
    ],
  ])('%s', (_what, sections, meant) => {
    const told = lines(sections);
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(`(did you mean ${meant}?)`);
    expect(told[0]).toMatch(/^e\.yaml:\d+:\d+ /u);
  });

  it('asks for bore and stroke that are not of one cylinder, since either may be the slip', () =>
    expect(
      lines({ engine: '{ bore: 4.03 cm, stroke: 3.48 in, cylinders: 8 }' }).map((line) =>
        line.slice(line.indexOf('(')),
      ),
    ).toEqual(['(did you mean 4.03 in?)', '(did you mean 3.48 cm?)']));

  it('asks for all of them at once', () =>
    expect(
      lines({
        heads: '{ valvesPerCylinder: 2, intake: { portArea: 2.4 cm2 } }',
        exhaust: '{ primary: { inside: 1.75 cm }, collector: { inside: 3 cm } }',
        induction: '{ throttle: { diameter: 2.5 cm, count: 2 } }',
      }),
    ).toHaveLength(4));

  it('says which sizes engines like this have', () =>
    expect(lines({ exhaust: '{ collector: { diameter: 3 cm } }' })[0]).toContain(
      'exhaust.collector.diameter is 1.18 in, where engines like this have ',
    ));

  it('says sizes in the unit that was likely meant', () =>
    expect(
      lines({
        engine: '{ bore: 39 mm, stroke: 41.4 mm, cylinders: 1 }',
        exhaust: '{ primary: { inside: 16 mm }, collector: { inside: 18 cm } }',
      })[0],
    ).toMatch(
      /exhaust\.collector\.inside is 180 mm, where engines like this have 8\.7 to 58 mm \(did you mean 18 mm\?\)$/,
    ));

  it('counts the valves a primary is too narrow or too wide for', () => {
    const four = '{ valvesPerCylinder: 4, exhaust: { valve: 1.2 in } }';
    const primary = (inside: string): string | undefined =>
      lines({ heads: four, exhaust: `{ primary: { inside: ${inside} } }` })[0];
    expect(primary('1.5 cm')).toContain(
      ' is 0.591 in inside, too narrow for 2 exhaust valves of 1.2 in (did',
    );
    expect(primary('4.2 in')).toContain(' is 10.7 cm inside, too wide for 2 exhaust valves of 3.05 cm (did');
  });

  it('asks for a slip of the valve alone, not for what is measured by the valve', () =>
    expect(
      lines({
        heads: '{ valvesPerCylinder: 2, intake: { valve: 2.02 cm, minimumArea: 2 in2, portArea: 2.4 in2 } }',
      }).filter((line) => !line.includes('intake.valve ')),
    ).toEqual([]));

  it.each([
    [
      'a moped',
      {
        engine: '{ bore: 39 mm, stroke: 41.4 mm, cylinders: 1 }',
        exhaust: '{ primary: { inside: 16 mm } }',
        induction: '{ throttle: { diameter: 14 mm } }',
      },
    ],
    [
      'a ship',
      {
        engine: '{ bore: 180 mm, stroke: 250 mm, cylinders: 8 }',
        exhaust: '{ primary: { inside: 7 cm }, collector: { inside: 20 cm } }',
      },
    ],
    [
      'a throttle a tenth of what it should be, in millimetres',
      { engine: four, induction: '{ throttle: { diameter: 19 mm } }' },
    ],
    [
      'a restrictor of the rules',
      {
        engine: '{ bore: 67 mm, stroke: 42.5 mm, cylinders: 4 }',
        heads: '{ valvesPerCylinder: 4 }',
        induction: '{ throttle: { diameter: 40 mm }, restrictor: { bore: 20 mm } }',
      },
    ],
    [
      'one pipe for six cylinders',
      {
        engine: '{ bore: 9 cm, stroke: 9 cm, cylinders: 6 }',
        exhaust: '{ style: cast, groups: [[1, 2, 3, 4, 5, 6]], collector: { inside: 4.4 cm } }',
      },
    ],
  ])('but not for %s', (_what, sections) => expect(lines(sections)).toEqual([]));
});

describe('a field that does nothing beside others', () => {
  it.each([
    ['chamber.dome', { chamber: '{ compression: 9, dome: 5 cc }' }],
    ['exhaust.primary.wall', { exhaust: '{ primary: { inside: 1.6 in, wall: 0.05 in } }' }],
    ['burn.spark', { burn: '{ timing: best-torque, spark: [{ rpm: 3000 rpm, advance: 34 deg }] }' }],
    ['cam.cardRatio', { cam: '{ cardRatio: 1.5, intake: { at050: 224 deg, lobeLift: 0.318 in } }' }],
    ['cam.intake.checkedAt', { cam: '{ intake: { at050: 224 deg, checkedAt: 0.006 in } }' }],
    ['exhaust.muffler.airflow', { exhaust: '{ muffler: { flow: 600 cfm, airflow: 700 cfm } }' }],
    ['exhaust.secondary.wall', { exhaust: '{ secondary: { inside: 2 in, wall: 0.05 in } }' }],
    ['exhaust.box.pipe.wall', { exhaust: '{ muffler: chambered, box: { pipe: { wall: 1 mm } } }' }],
    ['heads.bench.depression', { heads: '{ valvesPerCylinder: 2, bench: { depression: 25 inH2O } }' }],
    [
      'heads.intake.portVolume',
      { heads: '{ valvesPerCylinder: 2, intake: { portArea: 2 in2, portVolume: 170 cc } }' },
    ],
  ])('is told by a code: %s', (path, sections) => {
    const { warnings } = readGood(fileWith(sections));
    expect(warnings.filter(({ code }) => code === 'field-unused').map((warning) => warning.path)).toEqual([
      path,
    ]);
  });

  it('is not told where it does something', () => {
    const { warnings } = readGood(
      fileWith({
        chamber: '{ volume: 64 cc, dome: 2 cc }',
        exhaust: '{ primary: { diameter: 1.75 in, wall: 0.05 in } }',
        cam: '{ cardRatio: 1.5, intake: { advertised: 268 deg, checkedAt: 0.006 in, valveLift: 0.477 in } }',
      }),
    );
    expect(warnings.filter(({ code }) => code === 'field-unused')).toEqual([]);
  });
});

describe('the published schema', () => {
  it('names the fuels, and takes one of your own', () => {
    const valid = new Ajv({ strict: false }).compile(combinationSchema());
    const file = (fuelValue: unknown) => ({
      engine: { bore: '4 in', stroke: '3 in', cylinders: 8 },
      fuel: fuelValue,
    });
    expect(FUEL_NAMES.every((name) => valid(file(name)))).toBe(true);
    expect(valid(file('pump-98'))).toBe(false);
  });
});
