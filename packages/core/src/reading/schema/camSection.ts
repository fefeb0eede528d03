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

const LIFT_LIMITS = '0.5 mm to 30 mm';
const DURATION_LIMITS = '60 deg to 420 deg';

function side(): z.ZodMiniType<CamSide> {
  return z.strictObject({
    advertised: z.optional(quantity('angle', DURATION_LIMITS)),
    checkedAt: z.optional(quantity('length', '0.01 mm to 1.5 mm')),
    at050: z.optional(quantity('angle', DURATION_LIMITS)),
    at200: z.optional(quantity('angle', '10 deg to 400 deg')),
    lobeLift: z.optional(quantity('length', LIFT_LIMITS)),
    valveLift: z.optional(quantity('length', LIFT_LIMITS)),
    cardRatio: z.optional(ratio(0.5, 3)),
    centreline: z.optional(
      valueOrBySpeed(quantity('angle', '60 deg to 170 deg'), '106 deg', {
        '2000 rpm': '98 deg',
        '6000 rpm': '110 deg',
      }),
    ),
    table: z.optional(sheetName()),
  });
}

export const camSection: z.ZodMiniType<CamSection> = z.strictObject({
  lifter: z.optional(word(LIFTERS)),
  separation: z.optional(quantity('angle', '80 deg to 140 deg')),
  advance: z.optional(quantity('angle', '-20 deg to 20 deg')),
  cardRatio: z.optional(ratio(0.5, 3)),
  camshafts: z.optional(count(1, 8)),
  intake: z.optional(side()),
  exhaust: z.optional(side()),
});

export const valvetrainSection: z.ZodMiniType<ValvetrainSection> = z.strictObject({
  type: z.optional(word(VALVETRAINS)),
  intakeRatio: z.optional(ratio(0.5, 3)),
  exhaustRatio: z.optional(ratio(0.5, 3)),
  ratioIs: z.optional(word(RATIO_SOURCES)),
  intakeLash: z.optional(quantity('length', '0 mm to 2 mm')),
  exhaustLash: z.optional(quantity('length', '0 mm to 2 mm')),
  flex: z.optional(quantity('length', '0 mm to 2 mm')),
});
