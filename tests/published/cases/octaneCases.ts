/** What an engine asks of its fuel: by compression, spark, mixture and air, and beside a survey of cars. */
import type { Combination } from '../../../packages/core/src/combination/combination.ts';
import { engineFile, pointsOf } from '../../physics/engines.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

/** A kilogram of dry air with ten grams of water more: vapour pressure [Pa] at a barometer of 1 atm. */
const TEN_GRAMS = 1610;

/** Coolant of an engine whose file says nothing of it [K]. */
const COOLANT = 360;

/** Air to fuel that a tenth of lambda is for gasoline [-]. */
const TENTH_OF_LAMBDA = 1.45;

const ENGINES = [
  ['tow-truck', 2500],
  ['hill-climb', 5500],
  ['club-racer', 5500],
] as const;

function atBestTorque(engine: Combination): Combination {
  return { ...engine, burn: { ...engine.burn, timing: { mode: 'best-torque' } } };
}

function withRatio(engine: Combination, ratio: number): Combination {
  const { bore, stroke } = engine.block;
  const clearanceVolume = ((Math.PI / 4) * bore * bore * stroke) / (ratio - 1);
  return { ...engine, chamber: { ...engine.chamber, clearanceVolume, compressionRatio: ratio } };
}

function trendsOf(example: string, rpm: number): readonly PublishedCase[] {
  const file = `examples/${example}/engine.yaml`;
  const engine = once(() => atBestTorque(engineFile(file)));
  const pointOf = (changed: Combination) => pointsOf(changed, [rpm])[0];
  const base = once(() => pointOf(engine()));
  const asked = (change: (engine: Combination) => Partial<Combination>): number =>
    pointOf({ ...engine(), ...change(engine()) }).octaneRequired;
  const moved = (change: (engine: Combination) => Partial<Combination>): number =>
    asked(change) - base().octaneRequired;
  /** A changed engine with the spark of the unchanged one: cars and engines with a fixed spark were asked. */
  const atOneSpark = (changed: Combination): number => {
    const timing = { mode: 'spark', rpm: [rpm], advance: [base().sparkDegBtdc] } as const;
    return pointOf({ ...changed, burn: { ...changed.burn, timing } }).octaneRequired;
  };
  const unchanged = once(() => atOneSpark(engine()));
  const row = { unit: '', decimals: 1 };
  const on = `${example}, ${rpm} rpm`;
  return [
    {
      ...row,
      what: `octane for a point of compression, 10 to 11, ${on}`,
      value: 5,
      within: 1,
      compute: () => asked((e) => withRatio(e, 11)) - asked((e) => withRatio(e, 10)),
    },
    {
      ...row,
      what: `octane that a spark a degree later spares, over five, ${on}`,
      value: 1,
      within: 0.5,
      aim: true,
      cause:
        'the integral follows the mean cycle, and knock is heard in those that burn earliest: of a spark 4 to 8 deg earlier a degree is worth 0.8 to 1.1. A spark set back by five degrees moves half burned by 5.4 to 5.7, too',
      compute: () => {
        const timing = { mode: 'spark', rpm: [rpm], advance: [base().sparkDegBtdc - 5] } as const;
        return (unchanged() - asked((e) => ({ burn: { ...e.burn, timing } }))) / 5;
      },
    },
    {
      ...row,
      what: `octane for 10 K more in the manifold, ${on}`,
      value: 1.2,
      within: 0.5,
      compute: () => moved((e) => ({ induction: { ...e.induction, heating: e.induction.heating + 10 } })),
    },
    {
      ...row,
      what: `octane for lambda 0.9 in place of 0.8, ${on}`,
      value: 2 * TENTH_OF_LAMBDA,
      within: 1,
      compute: () => asked(() => ({ lambda: 0.9 })) - asked(() => ({ lambda: 0.8 })),
    },
    {
      ...row,
      what: `octane that 10 g of water to a kilogram of air spare at one spark, ${on}`,
      value: 3,
      within: 0.5,
      aim: true,
      cause:
        'less air, a slower flame and a diluted end gas are in it; a carburetor that meters humid air a little richer, worth 0.2, is not, and the source says of its figure that it is "something like" that',
      compute: () => {
        const { weather } = engine();
        const humid = { ...weather, vapourPressure: weather.vapourPressure + TEN_GRAMS };
        return unchanged() - atOneSpark({ ...engine(), weather: humid });
      },
    },
    {
      ...row,
      what: `octane for 10 K more of inlet air at one spark, ${on}`,
      value: 1.2,
      within: 0.5,
      aim: true,
      cause:
        "of 10 K of air 6 to 7 are left when the valve closes, and a third to a half of what they ask for is what the fuel itself loses in warmer gas, which goes with how far its two octane numbers lie apart: ten of them on the club racer's, eight and nine on the others'",
      compute: () => {
        const { weather } = engine();
        const warm = { ...weather, temperature: weather.temperature + 10 };
        return atOneSpark({ ...engine(), weather: warm }) - unchanged();
      },
    },
    {
      ...row,
      what: `octane for coolant 10 K warmer at one spark, ${on}`,
      value: 1,
      within: 0.5,
      compute: () => atOneSpark(engineFile(file, `\nheat: { coolant: ${COOLANT + 10} K }\n`)) - unchanged(),
    },
  ];
}

/** Research octane that a usual carburetted engine without engine management asks for at full throttle. */
const SURVEY = [
  [7, 87],
  [8, 92],
  [9, 96],
  [10, 100],
  [11, 104],
  [12, 108],
] as const;

const SURVEY_RPM = 2000;

/**
 * What deposits add to the research octane that an engine asks for when clean. Of 86 cars of 1981 the mean was 5.1 at 15 000 miles, and it was 0.2 to 0.3
 * less for each number that a car asked for more to begin with (Coordinating Research Council, 1983, ADA136423, abstract). What they asked for
 * clean on the average is from memory: 86, so that with their deposits half of them were content with the 91 they were made for.
 */
const DEPOSITS = { mean: 5.1, at: 86, perNumber: -0.25 } as const;

function withDeposits(clean: number): number {
  return clean + DEPOSITS.mean + DEPOSITS.perNumber * (clean - DEPOSITS.at);
}

/** Research octane number of a usual fuel that the street engine asks for at a ratio, clean. */
const street = once(() =>
  SURVEY.map(([ratio]) => {
    const engine = atBestTorque(withRatio(engineFile('tests/data/engines/street-350.yaml'), ratio));
    const { researchOctane, motorOctane } = engine.fuel;
    return pointsOf(engine, [SURVEY_RPM])[0].octaneRequired + (researchOctane - motorOctane) / 2;
  }),
);

export const octaneCases: PublishedSource = {
  title: 'What an engine asks of its fuel',
  source:
    'compression (5 a point), spark (1 a degree) and mixture (2 by the air-fuel ratio): Russ, SAE 960497 (1996), abstract, a single cylinder with heads of production; coolant (1 for 10 K): the same; charge temperature: common practice, no source, and 1.4 for 10 K of inlet air by Russ; humidity: 0.25 to 0.35 a gram (racefuel.com, performance factors); cars by compression: Hamilton, Gasoline FAQ (1996), section 6, a usual carburetted engine without engine management; deposits: Coordinating Research Council, Octane Requirement Increase of 1981 Model Cars (1983), abstract, 5.1 research octane at 15 000 miles and 0.2 to 0.3 less for each number that a clean car asks for more',
  note: 'At best torque, in numbers of the pump; cars in research octane, beside an old eight with a slow chamber at 2000 rpm and the deposits of cars.',
  cases: [
    ...ENGINES.flatMap(([example, rpm]) => trendsOf(example, rpm)),
    {
      what: 'research octane for a point of compression, 7 to 10, cars',
      value: 13 / 3,
      unit: '',
      decimals: 1,
      within: 1,
      compute: () => (withDeposits(street()[3]) - withDeposits(street()[0])) / 3,
    },
    ...SURVEY.map(
      ([ratio, octane], i): PublishedCase => ({
        what: `research octane at ${ratio}:1, cars`,
        value: octane,
        unit: '',
        decimals: 0,
        within: 3,
        aim: true,
        cause:
          'the program has best torque, where the spark of a car is some degrees later and spares 1.2 to 1.5 numbers each; what a car asked for clean is from memory',
        compute: () => withDeposits(street()[i]),
      }),
    ),
  ],
};
