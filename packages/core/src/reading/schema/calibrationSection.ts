/** Section `calibration`: what a fit to dyno sheets left known of the fields it moved. Written by the program. */

import * as z from 'zod/mini';
import { CALIBRATED_FIELDS, type CalibratedField } from './calibratedFields.ts';
import { pure, quantity, text, word } from './quantity.ts';

/** The most fields one calibration moves. */
export const MAX_KNOBS = 6;

export interface CalibrationSection {
  readonly sheets: string[];
  readonly knobs: {
    readonly field: CalibratedField;
    readonly value: number;
    readonly spread: number;
  }[];
  readonly correlation: number[][];
  readonly dyno?: { readonly reads: number; readonly spread: number } | undefined;
  readonly doubt?: string | undefined;
}

const amount = (): z.ZodMiniType<number> =>
  z.union([pure(0, 3), quantity('share', '0 % to 100 %')], {
    error: () => 'needs a plain number, or a share in % for burn.efficiency',
  }) as z.ZodMiniType<number>;

export const calibrationSection: z.ZodMiniType<CalibrationSection> = z.strictObject({
  sheets: z.array(text(200)).check(z.minLength(1), z.maxLength(20)),
  knobs: z
    .array(
      z.strictObject({
        field: word(CALIBRATED_FIELDS),
        value: amount(),
        spread: amount(),
      }),
    )
    .check(z.minLength(1), z.maxLength(MAX_KNOBS)),
  correlation: z
    .array(z.array(pure(-1, 1)).check(z.minLength(1), z.maxLength(MAX_KNOBS)))
    .check(z.minLength(1), z.maxLength(MAX_KNOBS)),
  dyno: z.optional(
    z.strictObject({
      reads: pure(0.5, 2),
      spread: pure(0, 1),
    }),
  ),
  doubt: z.optional(text(400)),
});
