/** Section `limits` of the file: what an answer must keep to be recommended. */
import * as z from 'zod/mini';
import { pure, quantity } from './quantity.ts';

export interface LimitsSection {
  readonly octaneMargin?: number | undefined;
  readonly pistonSpeed?: number | undefined;
  readonly valveLift?: number | undefined;
  readonly redline?: number | undefined;
}

export const limitsSection: z.ZodMiniType<LimitsSection> = z.strictObject({
  octaneMargin: z.optional(pure(-20, 30)),
  pistonSpeed: z.optional(quantity('piston-speed', '3 m/s to 40 m/s')),
  valveLift: z.optional(quantity('length', '2 mm to 40 mm')),
  redline: z.optional(quantity('speed', '500 rpm to 25000 rpm')),
});
