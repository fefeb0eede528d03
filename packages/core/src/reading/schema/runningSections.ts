/** Sections about running the engine: `fuel`, `mixture`, `burn`, `heat`, `friction`, `weather`. */
import * as z from 'zod/mini';
import type { BySpeed } from '../../combination/combination.ts';
import { FUEL_NAMES } from '../../gas/fuels.ts';
import { byCylinder, bySpeed, count, flag, pure, quantity, text, valueOrBySpeed, word } from './quantity.ts';

/** A fuel of the user's own. */
export interface FuelSection {
  readonly name: string;
  readonly atoms: { readonly C: number; readonly H: number; readonly O: number };
  readonly heatingValue: number;
  readonly latentHeat: number;
  readonly researchOctane: number;
  readonly motorOctane: number;
}

export const fuelSection: z.ZodMiniType<string | FuelSection> = z.union(
  [
    text(60).check(z.meta({ enum: [...FUEL_NAMES] })),
    z.strictObject({
      name: text(60),
      atoms: z.strictObject({
        C: pure(0, 40),
        H: pure(0.1, 90),
        O: pure(0, 10),
      }),
      heatingValue: quantity('specific-energy', '5 MJ/kg to 125 MJ/kg'),
      latentHeat: quantity('specific-energy', '0 kJ/kg to 1500 kJ/kg'),
      researchOctane: pure(0, 140),
      motorOctane: pure(0, 140),
    }),
  ],
  {
    error: () =>
      'needs the name of a fuel, such as pump-91, or a fuel of your own with name, atoms, heats and octane numbers',
  },
);

export interface MixtureSection {
  readonly lambda?: number | BySpeed | undefined;
  readonly airFuelRatio?: number | BySpeed | undefined;
  readonly differences?: number[] | undefined;
  readonly scatter?: number | undefined;
}

export const mixtureSection: z.ZodMiniType<MixtureSection> = z.strictObject({
  lambda: z.optional(valueOrBySpeed(pure(0.5, 1.6), 0.87, { '3000 rpm': 0.9, '6000 rpm': 0.86 })),
  airFuelRatio: z.optional(valueOrBySpeed(pure(3, 40), 12.8, { '3000 rpm': 13.2, '6000 rpm': 12.6 })),
  differences: z.optional(byCylinder(pure(-0.4, 0.4))),
  scatter: z.optional(quantity('share', '0 % to 12 %')),
});

/** How the spark is timed. */
export const TIMINGS = ['knock-limited', 'best-torque', 'ca50', 'spark'] as const;
export type TimingWord = (typeof TIMINGS)[number];

export interface BurnSection {
  readonly timing?: TimingWord | undefined;
  readonly ca50?: number | undefined;
  readonly spark?: { readonly rpm: number; readonly advance: number }[] | undefined;
  readonly duration?: number | undefined;
  readonly durationMultiplier?: number | undefined;
  readonly efficiency?: number | undefined;
  readonly octaneOffset?: number | undefined;
  readonly heard?: HeardSection[] | undefined;
}

/** What can be heard of knock. */
export const KNOCKS = ['none', 'trace'] as const;

export interface HeardSection {
  readonly rpm: number;
  readonly advance: number;
  readonly octane?: number | undefined;
  readonly knock: (typeof KNOCKS)[number];
}

const advanceAngle = (): z.ZodMiniType<number, string> =>
  quantity('angle', '-20 deg to 70 deg', 'before top centre');

export const burnSection: z.ZodMiniType<BurnSection> = z.strictObject({
  timing: z.optional(word(TIMINGS)),
  ca50: z.optional(quantity('angle', '-20 deg to 60 deg', 'after top centre')),
  spark: z.optional(
    z.union(
      [
        // One for all speeds.
        z.pipe(
          advanceAngle(),
          z.transform((advance) => [{ rpm: 0, advance }]),
        ),
        z
          .array(
            z.strictObject({
              rpm: quantity('speed', '0 rpm to 25000 rpm'),
              advance: advanceAngle(),
            }),
          )
          .check(z.minLength(1), z.maxLength(60)),
        z.pipe(
          bySpeed(advanceAngle()),
          z.transform(({ rpm, value }) => rpm.map((speed, i) => ({ rpm: speed, advance: value[i] }))),
        ),
      ],
      {
        error: ({ input }) =>
          `needs a spark such as 34 deg, or one by speed such as { 3000 rpm: 34 deg, 6000 rpm: 38 deg }${typeof input === 'number' ? `: ${input} alone could be anything` : ''}`,
      },
    ),
  ),
  duration: z.optional(quantity('angle', '5 deg to 120 deg')),
  durationMultiplier: z.optional(pure(0.4, 2.5)),
  efficiency: z.optional(quantity('share', '50 % to 100 %')),
  octaneOffset: z.optional(pure(-15, 15)),
  heard: z.optional(
    z
      .array(
        z.strictObject({
          rpm: quantity('speed', '100 rpm to 25000 rpm'),
          advance: advanceAngle(),
          octane: z.optional(pure(40, 130)),
          knock: word(KNOCKS),
        }),
      )
      .check(z.minLength(1), z.maxLength(12)),
  ),
});

export const WALL_HEAT_MODELS = ['woschni', 'hohenberg', 'annand'] as const;

export interface HeatSection {
  readonly model?: (typeof WALL_HEAT_MODELS)[number] | undefined;
  readonly multiplier?: number | undefined;
  readonly coolant?: number | undefined;
  readonly head?: number | undefined;
  readonly piston?: number | undefined;
  readonly liner?: number | undefined;
}

const WALL = '300 K to 900 K';
const COOLANT_RANGE = '273 K to 410 K';

export const heatSection: z.ZodMiniType<HeatSection> = z.strictObject({
  model: z.optional(word(WALL_HEAT_MODELS)),
  multiplier: z.optional(pure(0.2, 3)),
  coolant: z.optional(quantity('temperature', COOLANT_RANGE)),
  head: z.optional(quantity('temperature', WALL)),
  piston: z.optional(quantity('temperature', WALL)),
  liner: z.optional(quantity('temperature', WALL)),
});

export const FRICTION_VALVETRAINS = [
  'flat-tappet',
  'roller-lifter',
  'direct-acting',
  'finger-follower',
  'rocker-arm',
] as const;

export interface FrictionSection {
  readonly valvetrain?: (typeof FRICTION_VALVETRAINS)[number] | undefined;
  readonly multiplier?: number | undefined;
  readonly accessories?: boolean | undefined;
  readonly mainBearings?: number | undefined;
  readonly mainDiameter?: number | undefined;
  readonly mainLength?: number | undefined;
  readonly rodDiameter?: number | undefined;
  readonly rodLength?: number | undefined;
}

const JOURNAL = '8 mm to 200 mm';
const JOURNAL_LENGTH = '4 mm to 120 mm';

export const frictionSection: z.ZodMiniType<FrictionSection> = z.strictObject({
  valvetrain: z.optional(word(FRICTION_VALVETRAINS)),
  multiplier: z.optional(pure(0.3, 3)),
  accessories: z.optional(flag()),
  mainBearings: z.optional(count(2, 17)),
  mainDiameter: z.optional(quantity('length', JOURNAL)),
  mainLength: z.optional(quantity('length', JOURNAL_LENGTH)),
  rodDiameter: z.optional(quantity('length', JOURNAL)),
  rodLength: z.optional(quantity('length', JOURNAL_LENGTH)),
});

export interface WeatherSection {
  readonly barometer?: number | undefined;
  readonly temperature?: number | undefined;
  readonly humidity?: number | undefined;
  readonly vapourPressure?: number | undefined;
  readonly dewPoint?: number | undefined;
}

const AIR_TEMPERATURE = '-30 degC to 55 degC';

export const weatherSection: z.ZodMiniType<WeatherSection> = z.strictObject({
  barometer: z.optional(quantity('pressure', '50 kPa to 110 kPa')),
  temperature: z.optional(quantity('temperature', AIR_TEMPERATURE)),
  humidity: z.optional(quantity('share', '0 % to 100 %')),
  vapourPressure: z.optional(quantity('pressure', '0 kPa to 12 kPa')),
  dewPoint: z.optional(quantity('temperature', AIR_TEMPERATURE)),
});

export const CORRECTIONS = ['J607', 'J1349', 'none'] as const;
