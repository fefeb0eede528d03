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

const amount = (what: string, plain: number, share: string): z.ZodMiniType<number> =>
  z
    .union([pure(0, 3, what, plain), quantity('share', { min: '0 %', max: '100 %' }, what, share)], {
      error: () => 'needs a plain number, or a share in % for burn.efficiency',
    })
    .check(z.meta({ description: what, examples: [plain, share] })) as z.ZodMiniType<number>;

export const calibrationSection: z.ZodMiniType<CalibrationSection> = z
  .strictObject({
    sheets: z
      .array(text(200, 'Name of a dyno sheet.', 'pulls.csv'))
      .check(
        z.minLength(1),
        z.maxLength(20),
        z.meta({ description: 'Dyno sheets it was fitted to.', examples: [['pulls.csv']] }),
      ),
    knobs: z
      .array(
        z.strictObject({
          field: word(CALIBRATED_FIELDS, 'Field that was fitted; its value stands in its own place too.'),
          value: amount('Value the fit left.', 0.97, '97.2 %'),
          spread: amount('One standard deviation left after the fit.', 0.02, '0.8 %'),
        }),
      )
      .check(
        z.minLength(1),
        z.maxLength(MAX_KNOBS),
        z.meta({
          description: 'Fields that were fitted.',
          examples: [[{ field: 'friction.multiplier', value: 0.95, spread: 0.06 }]],
        }),
      ),
    correlation: z
      .array(
        z.array(pure(-1, 1, 'Correlation of two fields.', 0.4)).check(z.minLength(1), z.maxLength(MAX_KNOBS)),
      )
      .check(
        z.minLength(1),
        z.maxLength(MAX_KNOBS),
        z.meta({
          description: 'Correlation of what is left uncertain, rows and columns in the order of the knobs.',
          examples: [[[1]]],
        }),
      ),
    dyno: z.optional(
      z
        .strictObject({
          reads: pure(0.5, 2, 'What the dyno shows over what the engine gives.', 1.015),
          spread: pure(0, 1, 'One standard deviation left after the fit.', 0.02),
        })
        .check(
          z.meta({
            description: 'Level of the dyno; moves no forecast, only what is compared with its sheets.',
          }),
        ),
    ),
    doubt: z.optional(
      text(
        400,
        'Why the fit is doubtful; it was accepted all the same.',
        'it would need intake flow above +20 %',
      ),
    ),
  })
  .check(z.meta({ description: 'Written by a calibration: how sure the fitted fields are.' }));
