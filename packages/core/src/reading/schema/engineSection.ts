/** Section `engine`: the block and what turns in it. */
import * as z from 'zod/mini';
import { count, cylinderList, quantity, text, word } from './quantity.ts';

/** How the cylinders stand. */
export const LAYOUTS = ['inline', 'v', 'flat'] as const;
export type Layout = (typeof LAYOUTS)[number];

/** Values as read, SI, angles in degrees, speeds in rpm; missing where the file is silent. */
export interface EngineSection {
  readonly bore: number;
  readonly stroke: number;
  readonly cylinders: number;
  readonly rod?: number | undefined;
  readonly layout?: Layout | undefined;
  readonly firingOrder?: string | number[] | 1 | undefined;
  readonly firingIntervals?: number[] | undefined;
  readonly banks?: number[][] | undefined;
  readonly ratedSpeed?: number | undefined;
  readonly inertia?: number | undefined;
}

const FIRING_ORDER_WANTED = 'needs the cylinder numbers in the order they fire, such as 1-8-4-3-6-5-7-2';
/** Numbers with something between them that is no letter. */
const ORDER = /^\s*\d+(?:[^\p{L}\d]+\d+)*\s*$/u;

export const engineSection: z.ZodMiniType<EngineSection> = z.strictObject({
  bore: quantity('length', '20 mm to 250 mm'),
  stroke: quantity('length', '15 mm to 300 mm'),
  cylinders: count(1, 16),
  rod: z.optional(quantity('length', '20 mm to 700 mm')),
  layout: z.optional(word(LAYOUTS)),
  firingOrder: z.optional(
    z.union(
      [
        text(60).check(z.refine((order) => ORDER.test(order), FIRING_ORDER_WANTED)),
        cylinderList(),
        z.literal(1),
      ],
      { error: () => FIRING_ORDER_WANTED },
    ),
  ),
  firingIntervals: z.optional(
    z.array(quantity('angle', '0 deg to 720 deg')).check(z.minLength(1), z.maxLength(16)),
  ),
  banks: z.optional(z.array(cylinderList()).check(z.minLength(1), z.maxLength(4))),
  ratedSpeed: z.optional(quantity('speed', '800 rpm to 40000 rpm')),
  inertia: z.optional(quantity('inertia', '0.0005 kg m2 to 20 kg m2')),
});
