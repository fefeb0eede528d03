/** Every size of a part of induction and exhaust: asked for, estimated, or nothing where the file says nothing; and the spread of every estimate. */
import { describe, expect, it } from 'vitest';
import { fileWith, readGood } from './files.ts';
import { branches, type Field, fieldsBySection, isQuantity } from './schemaFields.ts';

/** Files that name each part and say no more of it than is asked for. */
const BARE: readonly string[] = [
  'induction: { manifold: dual-plane, divider: { opening: 3 in2 }, restrictor: { bore: 1.1 in }, spacer: { height: 1 in } }',
  `induction: { throttle: { diameter: 75 mm }, spacer: { kind: open, height: 1 in }, inletDuct: { inside: 75 mm, length: 200 mm },
    restrictor: { kind: sonic, bore: 38 mm } }`,
  `induction: { manifold: individual-throttles, throttle: { count: 4 }, airbox: { volume: 9 l, inlet: { inside: 90 mm } }, balance: { inside: 8 mm },
    airCleaner: { flow: 500 cfm } }`,
  'induction: { manifold: individual-throttles, carburetor: { count: 4 } }',
  'induction: { manifold: individual-runner, carburetor: { barrels: 2 } }',
  'exhaust: { secondary: {}, box: { kind: chambered }, muffler: { flow: 350 cfm } }',
  'exhaust: { box: { kind: straight-through }, muffler: { backPressure: 1 psi } }',
  'exhaust: { groups: [[1, 2], [3, 4]], balance: {}, collector: { exit: 80 mm }, muffler: chambered }',
  'exhaust: { primary: { steps: [{ after: 300 mm, inside: 45 mm }] }, muffler: straight-through }',
  'exhaust: { style: cast }',
];

const bare = (parts: string): string => `
engine: { bore: 86 mm, stroke: 86 mm, cylinders: 4 }
chamber: { compression: 10.5 }
heads: { valvesPerCylinder: 4 }
${parts}
`;

const OUTSIDE = 'the inside is what is estimated';
/** Sizes that no file lacks: each with what stands in their place. */
const NOTHING_TO_ESTIMATE: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    ['balance', 'box.pipe', 'collector', 'primary', 'secondary'].flatMap((pipe) => [
      [`exhaust.${pipe}.diameter`, OUTSIDE],
      [`exhaust.${pipe}.wall`, OUTSIDE],
    ]),
  ),
  'exhaust.collector.exit': 'a straight collector',
  'exhaust.muffler.backPressure': 'its word, or its flow',
  'exhaust.muffler.flow': 'its word, or its back-pressure',
  'induction.airbox.inlet.length': 'a hole',
  'induction.flowMultiplier': 'the flow as it is rated',
  'induction.spacer.bore': 'the bores above',
  'induction.spacer.bores': 'the bores above',
  'induction.throttle.count': 'one',
};

/** Numbers that are estimated and can't be off by a little. */
const WITHOUT_SPREAD: Readonly<Record<string, string>> = {
  'cam.camshafts': 'a count',
  'cam.exhaust.checkedAt': 'a convention of cards',
  'cam.intake.checkedAt': 'a convention of cards',
  'friction.mainBearings': 'a count',
  'valvetrain.exhaustRatio': 'nothing between lobe and valve',
  'valvetrain.intakeRatio': 'nothing between lobe and valve',
  'weather.barometer': 'the air that is asked for',
  'weather.temperature': 'the air that is asked for',
  'weather.vapourPressure': 'the air that is asked for',
  'exhaust.muffler.at': 'a convention of ratings',
  'induction.airCleaner.at': 'a convention of ratings',
  'induction.carburetor.ratedAt': 'a convention of ratings',
  'induction.carburetor.barrels': 'a count',
  'induction.carburetor.count': 'a count',
  'induction.restrictor.bores': 'a count',
  'induction.restrictor.recovery': 'nothing behind a plate',
};

/** The durations of a cam card are called by these heights in any system of units. */
const NAMES_OF_CARDS = /\bat 0\.(?:050|200) in\b/gu;
/** A size in units of the trade with nothing in SI behind it. */
const TRADE_ALONE = /\d (?:in|in2|ft\/s|psi|cfm|inHg|inH2O|degF|F)\b(?!, \d)/u;

const estimates = () => BARE.flatMap((parts) => readGood(bare(parts)).assumed);

describe('of what a file leaves out', () => {
  it('every size of induction and exhaust is estimated, or there is a reason why not', () => {
    const estimated = new Set(estimates().map(({ path }) => path));
    const sizes = [...fieldsBySection()].flatMap(([section, fields]) =>
      /^(?:induction|exhaust)\b/u.test(section) && !section.includes('[]')
        ? fields.filter((field) => isSize(field) && !field.needed).map(({ name }) => `${section}.${name}`)
        : [],
    );
    expect(sizes.length).toBeGreaterThan(60);
    expect(sizes.filter((path) => !estimated.has(path)).sort()).toEqual(
      Object.keys(NOTHING_TO_ESTIMATE).sort(),
    );
  });

  it('every estimate that is a number has a spread, but for counts and conventions', () => {
    const without = estimates().filter(
      ({ value, spread }) => typeof value === 'number' && !((spread ?? 0) > 0),
    );
    expect([...new Set(without.map(({ path }) => path))].sort()).toEqual(Object.keys(WITHOUT_SPREAD).sort());
    // A sonic restrictor's share has one.
    expect(without.filter(({ path }) => path.endsWith('recovery')).map(({ value }) => value)).toEqual([0]);
  });

  it('the reason is told in words that a file in SI can be shown too', () => {
    const volumes = fileWith({ chamber: '{ volume: 64 cc }', heads: '{ valvesPerCylinder: 2 }' });
    const fast = bare('exhaust: { style: headers }').replace('86 mm, stroke: 86', '60 mm, stroke: 40');
    const told = [...estimates(), ...[volumes, fast].flatMap((text) => readGood(text).assumed)];
    const inInches = told.filter(({ reason }) => TRADE_ALONE.test(reason.replaceAll(NAMES_OF_CARDS, '')));
    expect(inInches.map(({ path, reason }) => `${path}: ${reason}`)).toEqual([]);
  });
});

const isSize = (field: Field): boolean =>
  isQuantity(field) || branches(field.schema).some(({ type }) => type === 'number' || type === 'integer');
