/** Words for the fields of the section `exhaust`. */
import { below } from '../fields/fieldFacts.ts';
import type { FieldWords, WordsOf } from './fieldWords.ts';

const WALL: FieldWords = ['Wall thickness of the tube.', '0.049 in'];

/** Words of a round tube, by its name in a sentence and the diameter and length that are shown. */
const pipe = (
  name: string,
  diameter: string,
  length: string,
): Readonly<Record<'diameter' | 'wall' | 'inside' | 'length' | 'wallTemperature', FieldWords>> => ({
  diameter: [`Outside diameter of ${name}.`, diameter],
  wall: WALL,
  inside: [`Inside diameter of ${name}, in place of outside and wall.`, '1.65 in'],
  length: [`Length of ${name}.`, length],
  wallTemperature: ['Temperature of the tube at full load.', '800 K'],
});

export const exhaustWords: WordsOf<'exhaust'> = {
  exhaust: ['From the face of the head to the open air.'],
  'exhaust.style': ['What the exhaust ports lead into: headers (tubes) or cast (manifolds).'],
  'exhaust.primary': ['Primary tube of one cylinder, flange to merge.'],
  ...below('exhaust.primary', pipe('the primary', '1.750 in', '34 in')),
  'exhaust.primary.bends': [
    'Bends of one primary, flange to merge, all together: two right angles are 180 deg.',
    '180 deg',
  ],
  'exhaust.primary.steps': [
    'Next sizes of the tube, one after another, from the flange on.',
    [{ after: '12 in', diameter: '1-7/8 in' }],
  ],
  'exhaust.primary.steps.after': ['Length from the flange to where the tube takes its next size.', '12 in'],
  'exhaust.primary.steps.diameter': ['Outside diameter of the primary from there on.', '1-7/8 in'],
  'exhaust.primary.steps.wall': WALL,
  'exhaust.primary.steps.inside': [
    'Inside diameter of the primary from there on, in place of outside and wall.',
    '1.65 in',
  ],
  'exhaust.primary.lengths': [
    'Length of the primary of each cylinder, in the order of their numbers, in place of one length. Every cylinder is then computed.',
    ['31 in', '34 in', '33 in', '30 in'],
  ],
  'exhaust.secondary': [
    'A first merge of some primaries each, and the pipe from there to the collector. With it every cylinder is computed. Left out: the primaries meet in the collector.',
  ],
  ...below('exhaust.secondary', pipe('the secondary', '2.000 in', '14 in')),
  'exhaust.secondary.groups': [
    'Which cylinders meet first. Left out: pairs that fire a turn of the crank apart.',
    [
      [1, 4],
      [2, 3],
    ],
  ],
  'exhaust.secondary.mergeVolume': ['Volume where these primaries meet.', '150 cc'],
  'exhaust.collector': [
    "Collector; 'none' for primaries that end in the open.",
    { diameter: '3.000 in', length: '12 in' },
    'none',
  ],
  ...below('exhaust.collector', pipe('the collector', '3.000 in', '12 in')),
  'exhaust.collector.mergeVolume': ['Volume where the primaries meet.', '400 cc'],
  'exhaust.collector.exit': [
    'Inside diameter at its far end, where it widens to a megaphone or narrows. Left out: straight.',
    '3.500 in',
  ],
  'exhaust.groups': [
    'Which cylinders share a collector.',
    [
      [1, 3, 5, 7],
      [2, 4, 6, 8],
    ],
  ],
  'exhaust.balance': [
    'A tube between two collectors; as short as it is wide where the pipes cross. With it every cylinder is computed. Left out: none.',
  ],
  ...below('exhaust.balance', pipe('the balance tube', '2.000 in', '18 in')),
  'exhaust.balance.at': ['How far behind the merges it joins the collectors.', '10 in'],
  'exhaust.muffler': [
    'Muffler: its measured back-pressure, or the rated flow of each outlet. Where neither is known: open (no muffler), straight-through or chambered, whose back-pressure is an estimate.',
    { backPressure: '1.5 psi', airflow: '700 cfm' },
    { flow: '600 cfm', at: '1.5 inHg' },
    'open',
    'straight-through',
    'chambered',
  ],
  'exhaust.muffler.flow': ['Rated flow of one outlet with its muffler.', '600 cfm'],
  'exhaust.muffler.at': ['Pressure drop of the rating.', '1.5 inHg'],
  'exhaust.muffler.backPressure': [
    'Measured back-pressure at the wall of the pipe in front, in place of a rating.',
    '1.5 psi',
  ],
  'exhaust.muffler.airflow': ['Air the whole engine drew when the back-pressure was measured.', '700 cfm'],
  'exhaust.box': [
    'The muffler of one outlet as a volume with its pipe. Its loss is what `muffler` says; what is left out is estimated.',
  ],
  'exhaust.box.kind': [
    'chambered: the pipe opens into a box and another leads out. straight-through: a pipe with holes leads through the box.',
  ],
  'exhaust.box.backPressure': [
    'Back-pressure at rated speed, by all outlets, where `muffler` is only a word: 1.0 psi straight-through, 2.5 psi chambered. A reading or a rating goes under `muffler`.',
    '2.5 psi',
  ],
  'exhaust.box.volume': ['Gas in one box, packing taken off.', '6 l'],
  'exhaust.box.pipe': ['Tail-pipe of a box with chambers, or the pipe with holes in a straight one.'],
  ...below('exhaust.box.pipe', pipe('the tail-pipe, or of the pipe with holes', '2.500 in', '16 in')),
  'exhaust.returned': [
    'Of the gas that flows back in at the outlet, the share that is exhaust; the rest is air from around it.',
    '50 %',
  ],
};
