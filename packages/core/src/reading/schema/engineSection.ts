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
}

const FIRING_ORDER_WANTED = 'needs the cylinder numbers in the order they fire, such as 1-8-4-3-6-5-7-2';
/** Numbers with something between them that is no letter. */
const ORDER = /^\s*\d+(?:[^\p{L}\d]+\d+)*\s*$/u;

export const engineSection: z.ZodMiniType<EngineSection> = z
  .strictObject({
    bore: quantity('length', { min: '20 mm', max: '250 mm' }, 'Cylinder bore.', '3.960 in', '84.4 mm'),
    stroke: quantity(
      'length',
      { min: '15 mm', max: '300 mm' },
      'Stroke of the crank.',
      '3.440 in',
      '88.6 mm',
    ),
    cylinders: count(1, 16, 'Number of cylinders.', 8, 4),
    rod: z.optional(
      quantity('length', { min: '25 mm', max: '700 mm' }, 'Connecting rod, centre to centre.', '5.880 in'),
    ),
    layout: z.optional(word(LAYOUTS, 'How the cylinders stand: inline, v or flat.')),
    firingOrder: z.optional(
      z
        .union(
          [
            text(60, 'Cylinder numbers with dashes.').check(
              z.refine((order) => ORDER.test(order), FIRING_ORDER_WANTED),
            ),
            cylinderList('Cylinder numbers.'),
            z.literal(1),
          ],
          { error: () => FIRING_ORDER_WANTED },
        )
        .check(
          z.meta({
            description: 'Cylinder numbers in the order they fire, with dashes or as a list.',
            examples: ['1-8-4-3-6-5-7-2', [1, 3, 4, 2]],
          }),
        ),
    ),
    firingIntervals: z.optional(
      z
        .array(
          quantity(
            'angle',
            { min: '0 deg', max: '720 deg' },
            'Crank angle from one firing to the next.',
            '90 deg',
          ),
        )
        .check(
          z.minLength(1),
          z.maxLength(16),
          z.meta({
            description:
              'Crank angles from each firing to the next, in firing order, 720 deg altogether; left out: evenly spaced.',
            examples: [['180 deg', '540 deg']],
          }),
        ),
    ),
    banks: z.optional(
      z.array(cylinderList('Cylinders of one bank.', [1, 3, 5, 7])).check(
        z.minLength(1),
        z.maxLength(4),
        z.meta({
          description: 'Which cylinders stand on which bank.',
          examples: [
            [
              [1, 3, 5, 7],
              [2, 4, 6, 8],
            ],
          ],
        }),
      ),
    ),
    ratedSpeed: z.optional(
      quantity(
        'speed',
        { min: '800 rpm', max: '22000 rpm' },
        'Speed the engine is meant to make its power at; sizes the estimates for parts the file leaves out.',
        '5500 rpm',
      ),
    ),
  })
  .check(z.meta({ description: 'The block and what turns in it.' }));
