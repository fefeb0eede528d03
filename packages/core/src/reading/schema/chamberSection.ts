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

const CHAMBER_VOLUME = '1 cc to 800 cc';

const sections = z.strictObject({
  shape: z.optional(word(CHAMBER_SHAPES)),
  plug: z.optional(word(PLUG_PLACES)),
  squishArea: z.optional(quantity('share', '0 % to 70 %')),
  squishHeight: z.optional(quantity('length', '0.2 mm to 12 mm')),
  compression: z.optional(ratio(4, 20)),
  compressions: z.optional(byCylinder(ratio(4, 20))),
  volume: z.optional(quantity('volume', CHAMBER_VOLUME)),
  volumes: z.optional(byCylinder(quantity('volume', CHAMBER_VOLUME))),
  dome: z.optional(quantity('volume', '0 cc to 400 cc')),
  dish: z.optional(quantity('volume', '0 cc to 400 cc')),
  deck: z.optional(quantity('length', '-5 mm to 15 mm')),
  gasketBore: z.optional(quantity('length', '20 mm to 260 mm')),
  gasketThickness: z.optional(quantity('length', '0 mm to 6 mm')),
  crevice: z.optional(quantity('volume', '0 cc to 20 cc')),
});

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
