/** Section `limits` of the file: what an answer must keep to be recommended. */
import * as z from 'zod/mini';
import { pure, quantity } from './quantity.ts';

export interface LimitsSection {
  readonly octaneMargin?: number | undefined;
  readonly pistonSpeed?: number | undefined;
  readonly valveLift?: number | undefined;
  readonly redline?: number | undefined;
}

export const limitsSection: z.ZodMiniType<LimitsSection> = z
  .strictObject({
    octaneMargin: z.optional(
      pure(
        -20,
        30,
        'Octane numbers, (R + M) / 2, that the fuel must have beyond what best timing asks for; below 0: so many may be missing and are given back in spark. Left out: -4.',
        2,
      ),
    ),
    pistonSpeed: z.optional(
      quantity(
        'piston-speed',
        { min: '3 m/s', max: '40 m/s' },
        'Highest mean piston speed, at the highest speed looked at or at the redline.',
        '4200 ft/min',
      ),
    ),
    valveLift: z.optional(
      quantity(
        'length',
        { min: '2 mm', max: '40 mm' },
        'Largest valve lift, lash taken off: by springs, retainers or clearance.',
        '0.600 in',
      ),
    ),
    redline: z.optional(
      quantity(
        'speed',
        { min: '500 rpm', max: '25000 rpm' },
        'Highest engine speed: an engine must make its highest power at or below it.',
        '6800 rpm',
      ),
    ),
  })
  .check(
    z.meta({
      description:
        'What compare, sweep and rank must keep to: an answer that breaks one of these is shown with what it breaks, and another is named best. No forecast is moved by them.',
    }),
  );
