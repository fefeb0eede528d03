/** What an engine asks of its fuel: by compression, spark, mixture and air, and beside a survey of cars. */
import type { Combination } from '../../../packages/core/src/combination/combination.ts';
import { engineFile, pointsOf } from '../../physics/engines.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

/** A kilogram of dry air with ten grams of water more: vapour pressure [Pa] at a barometer of 1 atm. */
const TEN_GRAMS = 1610;

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
  const engine = once(() => atBestTorque(engineFile(`examples/${example}/engine.yaml`)));
  const pointOf = (changed: Combination) => pointsOf(changed, [rpm])[0];
  const base = once(() => pointOf(engine()));
  const asked = (change: (engine: Combination) => Partial<Combination>): number =>
    pointOf({ ...engine(), ...change(engine()) }).octaneRequired;
  const moved = (change: (engine: Combination) => Partial<Combination>): number =>
    asked(change) - base().octaneRequired;
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
        'a spark set back by five degrees moves half burned by 5.4 to 5.7, and each of these spares 1.1 to 1.4; most where the burn is short and the charge dense',
      compute: () => {
        const timing = { mode: 'spark', rpm: [rpm], advance: [base().sparkDegBtdc - 5] } as const;
        return -moved((e) => ({ burn: { ...e.burn, timing } })) / 5;
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
        // Cars and engines with a fixed spark were asked.
        const timing = { mode: 'spark', rpm: [rpm], advance: [base().sparkDegBtdc] } as const;
        const asDry = asked((e) => ({ burn: { ...e.burn, timing } }));
        return (
          asDry -
          asked(({ burn, weather }) => ({
            burn: { ...burn, timing },
            weather: { ...weather, vapourPressure: weather.vapourPressure + TEN_GRAMS },
          }))
        );
      },
    },
  ];
}

/** Research octane that cars without knock control asked for at full throttle. */
const SURVEY = [
  [7, 87],
  [8, 92],
  [9, 96],
  [10, 100],
] as const;

const SURVEY_RPM = 2000;

/** Research octane number of a usual fuel that the street engine asks for at a ratio. */
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
    'compression (5 a point), spark (1 a degree) and mixture (2 by the air-fuel ratio): Russ, SAE 960497 (1996), abstract, a single cylinder with heads of production; charge temperature: common practice, no source, and 1.4 for 10 K of inlet air by Russ; humidity: 0.25 to 0.35 a gram (racefuel.com, performance factors); cars by compression: Hamilton, Gasoline FAQ (1996), section 6, a usual carburetted engine without engine management',
  note: 'At best torque, in numbers of the pump; the survey in research octane, beside an old eight with a slow chamber at 2000 rpm.',
  cases: [
    ...ENGINES.flatMap(([example, rpm]) => trendsOf(example, rpm)),
    {
      what: 'research octane for a point of compression, 7 to 10, cars',
      value: 13 / 3,
      unit: '',
      decimals: 1,
      within: 1,
      aim: true,
      cause:
        'the cars of low compression were others than those of high: older, with slower and hotter chambers; here one engine is taken through all four, and gains what Russ found',
      compute: () => (street()[3] - street()[0]) / 3,
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
          'cars in use carry deposits, worth 3 to 8 numbers (from memory), hot manifolds and a cylinder that runs lean; the program has a clean engine on a stand',
        compute: () => street()[i],
      }),
    ),
  ],
};
