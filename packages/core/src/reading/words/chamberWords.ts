/** Words for the fields of the section `chamber`. */
import type { WordsOf } from './fieldWords.ts';

export const chamberWords: WordsOf<'chamber'> = {
  chamber: ['The chamber above the piston at top centre, one cylinder: its form and its volumes.'],
  'chamber.shape': [
    'Shape of the chamber: wedge, bathtub, bowl-in-piston, hemispherical or pent-roof. Squish empties over one side of a wedge, two sides of a bathtub or pent roof, a ring in the others.',
  ],
  'chamber.plug': [
    'Where the plug stands: central (in the middle of the bore) or side. The nearer to the middle, the shorter the way of the flame.',
  ],
  'chamber.squishArea': [
    'Area where the flats of piston and head come close at top centre, as a share of the area of the bore. More of it burns faster.',
    '18 %',
  ],
  'chamber.squishHeight': [
    'Gap between the flats of piston and head at top centre. Left out: deck and compressed gasket, beside chamber.volume; else usual ones. The closer, the faster it burns, down to 0.035 in.',
    '0.045 in',
  ],
  'chamber.compression': [
    'Compression ratio. With the volumes below it is only checked against them.',
    10.5,
    '10.5:1',
  ],
  'chamber.compressions': [
    'Compression ratio of each cylinder, in the order of their numbers, in place of one. Every cylinder is then computed.',
    [10.5, 10.4, 10.6, 10.4],
  ],
  'chamber.volume': [
    'Chamber in the head, with valves and plug in place. The volumes below count beside it.',
    '58 cc',
  ],
  'chamber.volumes': [
    'Chamber of each cylinder, in the order of their numbers, in place of one. Every cylinder is then computed.',
    ['58 cc', '58.4 cc', '57.6 cc', '58.2 cc'],
  ],
  'chamber.dome': ['Dome of the piston, less its valve pockets.', '18 cc'],
  'chamber.dish': ['Dish of the piston with its valve pockets.', '6 cc'],
  'chamber.deck': [
    'Flat of the piston below the deck at top centre; negative where it stands proud.',
    '0.015 in',
  ],
  'chamber.gasketBore': ['Bore of the head gasket.', '4.100 in'],
  'chamber.gasketThickness': ['Head gasket, compressed.', '0.040 in'],
  'chamber.crevice': ['Crevice above the top ring and around the plug.', '1 cc'],
};
