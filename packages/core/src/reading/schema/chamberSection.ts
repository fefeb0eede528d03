/** Section `chamber`: form and volumes above the piston. */
import * as z from 'zod/mini';
import { CHAMBER_SHAPES, type ChamberShape } from '../../geometry/squish.ts';
import { PLUG_PLACES, type PlugPlace } from '../../processes/chamberBurn.ts';
import { byCylinder, quantity, ratio, word } from './quantity.ts';

export interface ChamberSection {
  readonly shape?: ChamberShape | undefined;
  readonly plug?: PlugPlace | undefined;
  readonly squishArea?: number | undefined;
  readonly squishHeight?: number | undefined;
  readonly compression?: number | undefined;
  readonly compressions?: number[] | undefined;
  readonly volume?: number | undefined;
  readonly volumes?: number[] | undefined;
  readonly dome?: number | undefined;
  readonly dish?: number | undefined;
  readonly deck?: number | undefined;
  readonly gasketBore?: number | undefined;
  readonly gasketThickness?: number | undefined;
  readonly crevice?: number | undefined;
}

const CHAMBER_VOLUME = { min: '1 cc', max: '800 cc' };

const sections = z
  .strictObject({
    shape: z.optional(
      word(
        CHAMBER_SHAPES,
        'Shape of the chamber: wedge, bathtub, bowl-in-piston, hemispherical or pent-roof. Squish empties over one side of a wedge, two sides of a bathtub or pent roof, a ring in the others.',
      ),
    ),
    plug: z.optional(
      word(
        PLUG_PLACES,
        'Where the plug stands: central (in the middle of the bore) or side. The nearer to the middle, the shorter the way of the flame.',
      ),
    ),
    squishArea: z.optional(
      quantity(
        'share',
        { min: '0 %', max: '70 %' },
        'Area over which flat of piston and head come close at top centre, of the area of the bore. More of it burns faster.',
        '18 %',
      ),
    ),
    squishHeight: z.optional(
      quantity(
        'length',
        { min: '0.2 mm', max: '12 mm' },
        'Piston to head there at top centre. Left out: deck and compressed gasket. The closer, the faster it burns, down to 0.035 in.',
        '0.045 in',
      ),
    ),
    compression: z.optional(
      ratio(
        4,
        20,
        'Compression ratio. With the volumes below it is only checked against them.',
        10.5,
        '10.5:1',
      ),
    ),
    compressions: z.optional(
      byCylinder(
        ratio(4, 20, 'Compression ratio of one cylinder.'),
        'Compression ratio of each cylinder, in the order of their numbers, in place of one. All cylinders march then.',
        [10.5, 10.4, 10.6, 10.4],
      ),
    ),
    volume: z.optional(
      quantity('volume', CHAMBER_VOLUME, 'Chamber in the head, with valves and plug in place.', '58 cc'),
    ),
    volumes: z.optional(
      byCylinder(
        quantity('volume', CHAMBER_VOLUME, 'Chamber of one cylinder.'),
        'Chamber of each cylinder, in the order of their numbers, in place of one. All cylinders march then.',
        ['58 cc', '58.4 cc', '57.6 cc', '58.2 cc'],
      ),
    ),
    dome: z.optional(
      quantity(
        'volume',
        { min: '0 cc', max: '400 cc' },
        'Dome of the piston, less its valve pockets.',
        '18 cc',
      ),
    ),
    dish: z.optional(
      quantity(
        'volume',
        { min: '0 cc', max: '400 cc' },
        'Dish of the piston with its valve pockets.',
        '6 cc',
      ),
    ),
    deck: z.optional(
      quantity(
        'length',
        { min: '-5 mm', max: '15 mm' },
        'Flat of the piston below the deck at top centre; negative where it stands proud.',
        '0.015 in',
      ),
    ),
    gasketBore: z.optional(
      quantity('length', { min: '20 mm', max: '260 mm' }, 'Bore of the head gasket.', '4.100 in'),
    ),
    gasketThickness: z.optional(
      quantity('length', { min: '0 mm', max: '6 mm' }, 'Head gasket, compressed.', '0.040 in'),
    ),
    crevice: z.optional(
      quantity(
        'volume',
        { min: '0 cc', max: '20 cc' },
        'Crevice above the top ring and around the plug.',
        '1 cc',
      ),
    ),
  })
  .check(
    z.meta({
      description: 'The chamber above the piston at top centre, one cylinder: its form and its volumes.',
    }),
  );

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** With one value that stands for those of the cylinders. */
export const chamberSection: z.ZodMiniType<ChamberSection> = z.pipe(
  sections,
  z.transform((section, context) => {
    const { compression, compressions, volume, volumes } = section;
    const twice = (field: string, one: string): void => {
      const message = `is given beside ${one}: keep one of the two`;
      const params = { code: 'inconsistent', hint: null };
      context.issues.push({ code: 'custom', input: section, path: [field], message, params });
    };
    if (compression !== undefined && compressions !== undefined) twice('compressions', 'compression');
    if (volume !== undefined && volumes !== undefined) twice('volumes', 'volume');
    return {
      ...section,
      ...(compressions === undefined ? {} : { compression: mean(compressions) }),
      ...(volumes === undefined ? {} : { volume: mean(volumes) }),
    };
  }),
);
