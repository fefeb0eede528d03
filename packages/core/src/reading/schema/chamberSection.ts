/** Section `chamber`: the volumes above the piston. */
import * as z from 'zod';
import type { ChamberClass } from '../../combination/combination.ts';
import { quantity, ratio, word } from './quantity.ts';

/** Chamber classes by how fast they burn. */
export const CHAMBER_CLASSES: readonly ChamberClass[] = [
  'open-wedge',
  'closed-wedge',
  'fast-burn-wedge',
  'hemispherical',
  'pent-roof',
];

export interface ChamberSection {
  readonly class?: ChamberClass | undefined;
  readonly compression?: number | undefined;
  readonly volume?: number | undefined;
  readonly dome?: number | undefined;
  readonly dish?: number | undefined;
  readonly deck?: number | undefined;
  readonly gasketBore?: number | undefined;
  readonly gasketThickness?: number | undefined;
  readonly crevice?: number | undefined;
}

export const chamberSection: z.ZodType<ChamberSection> = z
  .strictObject({
    class: word(
      CHAMBER_CLASSES,
      'Kind of chamber, which sets how fast it burns: open-wedge, closed-wedge, fast-burn-wedge (heart shaped), hemispherical or pent-roof.',
    ).optional(),
    compression: ratio(
      4,
      20,
      'Compression ratio. With the volumes below it is only checked against them.',
      10.5,
      '10.5:1',
    ).optional(),
    volume: quantity(
      'volume',
      { min: '1 cc', max: '800 cc' },
      'Chamber in the head, with valves and plug in place.',
      '64 cc',
    ).optional(),
    dome: quantity(
      'volume',
      { min: '0 cc', max: '400 cc' },
      'Dome of the piston, less its valve pockets.',
      '18 cc',
    ).optional(),
    dish: quantity(
      'volume',
      { min: '0 cc', max: '400 cc' },
      'Dish of the piston with its valve pockets.',
      '6 cc',
    ).optional(),
    deck: quantity(
      'length',
      { min: '-5 mm', max: '15 mm' },
      'Flat of the piston below the deck at top centre; negative where it stands proud.',
      '0.015 in',
    ).optional(),
    gasketBore: quantity(
      'length',
      { min: '20 mm', max: '260 mm' },
      'Bore of the head gasket.',
      '4.100 in',
    ).optional(),
    gasketThickness: quantity(
      'length',
      { min: '0 mm', max: '6 mm' },
      'Head gasket, compressed.',
      '0.040 in',
    ).optional(),
    crevice: quantity(
      'volume',
      { min: '0 cc', max: '20 cc' },
      'Crevice above the top ring and around the plug.',
      '1 cc',
    ).optional(),
  })
  .meta({ description: 'The volumes above the piston at top centre, one cylinder.' });
