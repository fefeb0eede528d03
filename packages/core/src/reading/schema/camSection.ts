/** Sections `cam` and `valvetrain`: the cam card, or measured lobes, and what carries the lift to the valve. */
import * as z from 'zod/mini';
import type { BySpeed } from '../../combination/combination.ts';
import { count, quantity, ratio, sheetName, valueOrBySpeed, word } from './quantity.ts';

/** What rides on the lobe. */
export const LIFTERS = ['hydraulic-flat', 'hydraulic-roller', 'solid-flat', 'solid-roller'] as const;
export type Lifter = (typeof LIFTERS)[number];

export interface CamSide {
  readonly advertised?: number | undefined;
  readonly checkedAt?: number | undefined;
  readonly at050?: number | undefined;
  readonly at200?: number | undefined;
  readonly lobeLift?: number | undefined;
  readonly valveLift?: number | undefined;
  readonly cardRatio?: number | undefined;
  readonly centreline?: number | BySpeed | undefined;
  readonly table?: string | undefined;
}

export interface CamSection {
  readonly lifter?: Lifter | undefined;
  readonly separation?: number | undefined;
  readonly advance?: number | undefined;
  readonly cardRatio?: number | undefined;
  readonly camshafts?: number | undefined;
  readonly intake?: CamSide | undefined;
  readonly exhaust?: CamSide | undefined;
}

/** What stands between lobe and valve. */
export const VALVETRAINS = ['pushrod', 'direct-acting', 'finger-follower', 'rocker-arm'] as const;
export type ValvetrainType = (typeof VALVETRAINS)[number];

/** How the rocker ratio is known. */
export const RATIO_SOURCES = ['measured', 'stamped', 'production'] as const;
export type RatioSource = (typeof RATIO_SOURCES)[number];

export interface ValvetrainSection {
  readonly type?: ValvetrainType | undefined;
  readonly intakeRatio?: number | undefined;
  readonly exhaustRatio?: number | undefined;
  readonly ratioIs?: RatioSource | undefined;
  readonly intakeLash?: number | undefined;
  readonly exhaustLash?: number | undefined;
  readonly flex?: number | undefined;
}

const LIFT_LIMITS = { min: '0.5 mm', max: '30 mm' };
const DURATION_LIMITS = { min: '60 deg', max: '420 deg' };

function side(name: string, direction: string): z.ZodMiniType<CamSide> {
  return z
    .strictObject({
      advertised: z.optional(
        quantity('angle', DURATION_LIMITS, 'Advertised duration, crank degrees.', '280 deg'),
      ),
      checkedAt: z.optional(
        quantity(
          'length',
          { min: '0.01 mm', max: '1.2 mm' },
          'Lifter rise at which the advertised duration was taken; makers differ.',
          '0.006 in',
        ),
      ),
      at050: z.optional(
        quantity('angle', DURATION_LIMITS, 'Duration at 0.050 in of lifter rise.', '227 deg'),
      ),
      at200: z.optional(
        quantity(
          'angle',
          { min: '10 deg', max: '400 deg' },
          'Duration at 0.200 in of lifter rise.',
          '145 deg',
        ),
      ),
      lobeLift: z.optional(quantity('length', LIFT_LIMITS, 'Lift of the lobe.', '0.336 in')),
      valveLift: z.optional(
        quantity(
          'length',
          LIFT_LIMITS,
          'Valve lift on the card, lobe lift times rocker ratio, before lash.',
          '0.538 in',
        ),
      ),
      cardRatio: z.optional(
        ratio(
          0.5,
          3,
          `Rocker ratio the ${name} valve lift on the card refers to, where it is not that of both sides.`,
          1.6,
        ),
      ),
      centreline: z.optional(
        valueOrBySpeed(
          quantity('angle', { min: '60 deg', max: '170 deg' }, 'Centre of the lobe.'),
          `Centre of the ${name} lobe as installed, crank degrees ${direction} top centre (60 deg to 170 deg).`,
          '106 deg',
          { '2000 rpm': '98 deg', '6000 rpm': '110 deg' },
        ),
      ),
      table: z.optional(
        sheetName('CSV sheet with the measured lobe, angle against lift, in place of the card.', 'lobe.csv'),
      ),
    })
    .check(z.meta({ description: `The ${name} lobe.` }));
}

export const camSection: z.ZodMiniType<CamSection> = z
  .strictObject({
    lifter: z.optional(word(LIFTERS, 'Lifter: hydraulic or solid, flat or roller.')),
    separation: z.optional(
      quantity('angle', { min: '80 deg', max: '140 deg' }, 'Lobe separation, cam degrees.', '110 deg'),
    ),
    advance: z.optional(
      quantity(
        'angle',
        { min: '-20 deg', max: '20 deg' },
        'Advance as installed: separation less intake centreline, crank degrees.',
        '4 deg',
      ),
    ),
    cardRatio: z.optional(
      ratio(
        0.5,
        3,
        'Rocker ratio the valve lifts on the card refer to, both sides; left out: the ratio of the rockers fitted, each side its own.',
        1.5,
      ),
    ),
    camshafts: z.optional(
      count(
        1,
        8,
        'Camshafts of the whole engine: their bearings rub. One in a block; one or two to a bank overhead.',
        2,
      ),
    ),
    intake: z.optional(side('intake', 'after')),
    exhaust: z.optional(side('exhaust', 'before')),
  })
  .check(z.meta({ description: 'The cam: what the card says, or measured lobes.' }));

export const valvetrainSection: z.ZodMiniType<ValvetrainSection> = z
  .strictObject({
    type: z.optional(
      word(
        VALVETRAINS,
        'What stands between lobe and valve: pushrod, direct-acting (bucket), finger-follower or rocker-arm (overhead cam).',
      ),
    ),
    intakeRatio: z.optional(ratio(0.5, 3, 'Valve lift over lobe lift, intake.', 1.5, '1.6:1')),
    exhaustRatio: z.optional(ratio(0.5, 3, 'Valve lift over lobe lift, exhaust.', 1.5)),
    ratioIs: z.optional(
      word(
        RATIO_SOURCES,
        'How the ratio is known: measured, stamped on an aftermarket rocker, or production (stamped parts run about 2 % low).',
      ),
    ),
    intakeLash: z.optional(
      quantity('length', { min: '0 mm', max: '2 mm' }, 'Intake clearance at the valve, hot.', '0.018 in'),
    ),
    exhaustLash: z.optional(
      quantity('length', { min: '0 mm', max: '2 mm' }, 'Exhaust clearance at the valve, hot.', '0.020 in'),
    ),
    flex: z.optional(
      quantity(
        'length',
        { min: '0 mm', max: '2 mm' },
        'Lift lost at the valve to bending, at full lift.',
        '0.010 in',
      ),
    ),
  })
  .check(z.meta({ description: 'Lifters, pushrods and rockers.' }));
