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

export const fuelSection: z.ZodMiniType<string | FuelSection> = z
  .union(
    [
      text(60, 'Name of a fuel this program knows.').check(z.meta({ enum: [...FUEL_NAMES] })),
      z.strictObject({
        name: text(60, 'Name to show.', 'race blend'),
        atoms: z
          .strictObject({
            C: pure(0, 40, 'Carbon atoms in a molecule.', 7.5),
            H: pure(0.1, 90, 'Hydrogen atoms in a molecule.', 14),
            O: pure(0, 10, 'Oxygen atoms in a molecule.', 0),
          })
          .check(z.meta({ description: 'Atoms of a mean molecule.' })),
        heatingValue: quantity(
          'specific-energy',
          { min: '5 MJ/kg', max: '125 MJ/kg' },
          'Lower heating value of the liquid.',
          '43.0 MJ/kg',
        ),
        latentHeat: quantity(
          'specific-energy',
          { min: '0 kJ/kg', max: '1500 kJ/kg' },
          'Latent heat of evaporation.',
          '350 kJ/kg',
        ),
        researchOctane: pure(0, 140, 'Research octane number.', 98),
        motorOctane: pure(0, 140, 'Motor octane number.', 88),
      }),
    ],
    {
      error: () =>
        'needs the name of a fuel, or a fuel of your own with name, atoms, heats and octane numbers',
    },
  )
  .check(
    z.meta({
      description: 'Fuel by name, or a fuel of your own.',
      examples: [
        'pump-91',
        {
          name: 'race blend',
          atoms: { C: 7.5, H: 14, O: 0 },
          heatingValue: '43.0 MJ/kg',
          latentHeat: '350 kJ/kg',
          researchOctane: 108,
          motorOctane: 100,
        },
      ],
    }),
  );

export interface MixtureSection {
  readonly lambda?: number | BySpeed | undefined;
  readonly airFuelRatio?: number | BySpeed | undefined;
  readonly differences?: number[] | undefined;
}

export const mixtureSection: z.ZodMiniType<MixtureSection> = z
  .strictObject({
    lambda: z.optional(
      valueOrBySpeed(
        pure(0.5, 1.6, 'Lambda.'),
        'Relative air-fuel ratio at full throttle, 1 is stoichiometric (0.5 to 1.6).',
        0.87,
        { '3000 rpm': 0.9, '6000 rpm': 0.86 },
      ),
    ),
    airFuelRatio: z.optional(
      valueOrBySpeed(
        pure(3, 40, 'Air over fuel.'),
        'Air-fuel ratio by mass, in place of lambda (3 to 40).',
        12.8,
        { '3000 rpm': 13.2, '6000 rpm': 12.6 },
      ),
    ),
    differences: z.optional(
      byCylinder(
        pure(-0.4, 0.4, 'Lambda of one cylinder less that of all.'),
        'Lambda of each cylinder less that of all, in the order of their numbers: above 0 where it runs leaner (-0.4 to 0.4). All cylinders march then.',
        [0.02, -0.01, -0.02, 0.01],
      ),
    ),
  })
  .check(z.meta({ description: 'Mixture at full throttle.' }));

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

const SPARK = { min: '-20 deg', max: '70 deg' };
const SPARK_BY_SPEED = { '3000 rpm': '34 deg', '6000 rpm': '38 deg' };

export const burnSection: z.ZodMiniType<BurnSection> = z
  .strictObject({
    timing: z.optional(
      word(
        TIMINGS,
        'knock-limited (best torque as far as the fuel allows), best-torque, ca50 (a given middle of burning) or spark (a given table).',
      ),
    ),
    ca50: z.optional(
      quantity('angle', { min: '-20 deg', max: '60 deg' }, 'Half burned, after top centre.', '8 deg'),
    ),
    spark: z.optional(
      z
        .union(
          [
            z
              .array(
                z.strictObject({
                  rpm: quantity('speed', { min: '0 rpm', max: '25000 rpm' }, 'Engine speed.', '3000 rpm'),
                  advance: quantity('angle', SPARK, 'Spark before top centre.', '34 deg'),
                }),
              )
              .check(z.minLength(1), z.maxLength(60)),
            z.pipe(
              bySpeed(
                quantity('angle', SPARK, 'Spark before top centre.'),
                'Spark by speed.',
                SPARK_BY_SPEED,
              ),
              z.transform(({ rpm, value }) => rpm.map((speed, i) => ({ rpm: speed, advance: value[i] }))),
            ),
          ],
          { error: () => 'needs spark by speed, such as { 3000 rpm: 34 deg, 6000 rpm: 38 deg }' },
        )
        .check(
          z.meta({
            description:
              'Spark before top centre at full throttle by speed (-20 deg to 70 deg); a list of rpm and advance says the same.',
            examples: [SPARK_BY_SPEED, [{ rpm: '3000 rpm', advance: '34 deg' }]],
          }),
        ),
    ),
    duration: z.optional(
      quantity(
        'angle',
        { min: '5 deg', max: '120 deg' },
        '10 to 90 % burned, in place of the burn model.',
        '30 deg',
      ),
    ),
    durationMultiplier: z.optional(pure(0.4, 2.5, 'On the duration the burn model computes.', 1)),
    efficiency: z.optional(
      quantity('share', { min: '50 %', max: '100 %' }, 'Share of the fuel that burns of what could.', '97 %'),
    ),
    octaneOffset: z.optional(
      pure(
        -15,
        15,
        'Octane numbers, (R + M) / 2, that this engine asks for beside the model: above 0 where it knocks sooner.',
        2,
      ),
    ),
    heard: z.optional(
      z
        .array(
          z.strictObject({
            rpm: quantity('speed', { min: '100 rpm', max: '25000 rpm' }, 'Engine speed.', '4500 rpm'),
            advance: quantity(
              'angle',
              { min: '-20 deg', max: '70 deg' },
              'Spark before top centre.',
              '34 deg',
            ),
            octane: z.optional(
              pure(
                40,
                130,
                'Octane of the fuel on the pump, (R + M) / 2; left out: that of the fuel of this file.',
                91,
              ),
            ),
            knock: word(KNOCKS, 'What was heard: none, or trace (knock that is just audible).'),
          }),
        )
        .check(
          z.minLength(1),
          z.maxLength(12),
          z.meta({
            description:
              'What was heard of knock at full throttle with this engine as it stands here: holds the octane that every forecast asks for to it.',
            examples: [[{ rpm: '4500 rpm', advance: '34 deg', octane: 91, knock: 'none' }]],
          }),
        ),
    ),
  })
  .check(z.meta({ description: 'Spark and burning.' }));

export const WALL_HEAT_MODELS = ['woschni', 'hohenberg', 'annand'] as const;

export interface HeatSection {
  readonly model?: (typeof WALL_HEAT_MODELS)[number] | undefined;
  readonly multiplier?: number | undefined;
  readonly coolant?: number | undefined;
  readonly head?: number | undefined;
  readonly piston?: number | undefined;
  readonly liner?: number | undefined;
}

const WALL = { min: '300 K', max: '900 K' };
const COOLANT_RANGE = { min: '273 K', max: '410 K' };

export const heatSection: z.ZodMiniType<HeatSection> = z
  .strictObject({
    model: z.optional(word(WALL_HEAT_MODELS, 'Law of wall heat: woschni, hohenberg or annand.')),
    multiplier: z.optional(pure(0.2, 3, 'On the wall heat the law gives.', 1)),
    coolant: z.optional(
      quantity(
        'temperature',
        COOLANT_RANGE,
        'Coolant at full load, 87 degC where nothing is said: what walls of chamber, cylinder and runners are estimated from.',
        '160 degF',
      ),
    ),
    head: z.optional(quantity('temperature', WALL, 'Wall of the chamber in the head.', '470 K')),
    piston: z.optional(quantity('temperature', WALL, 'Crown of the piston.', '500 K')),
    liner: z.optional(quantity('temperature', WALL, 'Cylinder wall.', '410 K')),
  })
  .check(z.meta({ description: 'Heat to the walls of the cylinder.' }));

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

const JOURNAL = { min: '8 mm', max: '200 mm' };
const JOURNAL_LENGTH = { min: '4 mm', max: '120 mm' };

export const frictionSection: z.ZodMiniType<FrictionSection> = z
  .strictObject({
    valvetrain: z.optional(word(FRICTION_VALVETRAINS, 'Rubbing of the valvetrain.')),
    multiplier: z.optional(pure(0.3, 3, 'On the friction the model gives.', 1)),
    accessories: z.optional(flag('Whether the engine drives its water pump and alternator.')),
    mainBearings: z.optional(count(2, 17, 'Number of main bearings.', 5)),
    mainDiameter: z.optional(quantity('length', JOURNAL, 'Diameter of the main journals.', '2.450 in')),
    mainLength: z.optional(quantity('length', JOURNAL_LENGTH, 'Length of one main bearing.', '0.85 in')),
    rodDiameter: z.optional(quantity('length', JOURNAL, 'Diameter of the rod journals.', '2.100 in')),
    rodLength: z.optional(quantity('length', JOURNAL_LENGTH, 'Length of one rod bearing.', '0.80 in')),
  })
  .check(z.meta({ description: 'Friction: bearings, valvetrain and accessories.' }));

export interface WeatherSection {
  readonly barometer?: number | undefined;
  readonly temperature?: number | undefined;
  readonly humidity?: number | undefined;
  readonly vapourPressure?: number | undefined;
  readonly dewPoint?: number | undefined;
}

const AIR_TEMPERATURE = { min: '-30 degC', max: '55 degC' };

export const weatherSection: z.ZodMiniType<WeatherSection> = z
  .strictObject({
    barometer: z.optional(
      quantity(
        'pressure',
        { min: '50 kPa', max: '110 kPa' },
        'Absolute barometer in the room, not reduced to sea level, not dry.',
        '29.92 inHg',
      ),
    ),
    temperature: z.optional(quantity('temperature', AIR_TEMPERATURE, 'Air into the engine.', '60 degF')),
    humidity: z.optional(quantity('share', { min: '0 %', max: '100 %' }, 'Relative humidity.', '40 %')),
    vapourPressure: z.optional(
      quantity(
        'pressure',
        { min: '0 kPa', max: '12 kPa' },
        'Water vapour, in place of humidity.',
        '0.30 inHg',
      ),
    ),
    dewPoint: z.optional(
      quantity('temperature', AIR_TEMPERATURE, 'Dew point, in place of humidity.', '50 degF'),
    ),
  })
  .check(
    z.meta({
      description: 'Air in the room the forecast is for. Left out: the reference air of `correction`.',
    }),
  );

export const CORRECTIONS = ['J607', 'J1349', 'none'] as const;
