/** Rows of the section `exhaust`. */
import type { PipePath } from '../schema/fieldPath.ts';
import { below, type FieldFacts, type FieldsOf } from './fieldFacts.ts';
import { ratingError } from './inductionFields.ts';
import { inside } from './written.ts';

/** Rows that every pipe has: inside, or outside and wall. */
const pipe = (
  path: PipePath,
): Readonly<Record<'diameter' | 'wall' | 'inside' | 'length' | 'wallTemperature', FieldFacts>> => ({
  diameter: { entails: [{ drops: [`${path}.inside`] }] },
  wall: {},
  inside: { entails: [{ drops: [`${path}.diameter`, `${path}.wall`] }] },
  length: {},
  wallTemperature: { settledBy: 'pull' },
});

/** The collector's pipes meet in a volume that is as wide as they are. */
const SIZES_MERGE = { releases: ['exhaust.collector.mergeVolume'] } as const;

const { diameter, wall, inside: insideOf, ...ofCollector } = pipe('exhaust.collector');
const alsoMerge = ({ entails = [] }: FieldFacts): FieldFacts => ({ entails: [...entails, SIZES_MERGE] });

export const EXHAUST_FIELDS: FieldsOf<'exhaust'> = {
  exhaust: { access: 'on the stand' },
  'exhaust.style': {
    entails: [
      {
        releases: [
          'exhaust.primary',
          'exhaust.collector.inside',
          'exhaust.collector.length',
          'exhaust.collector.wallTemperature',
        ],
      },
    ],
  },
  'exhaust.primary': { entails: [{ releases: ['exhaust.secondary'] }] },
  ...below('exhaust.primary', pipe('exhaust.primary')),
  'exhaust.primary.inside': {
    entails: [{ drops: ['exhaust.primary.diameter', 'exhaust.primary.wall'] }],
    follows: ({ exhaustSystem }) => inside(exhaustSystem.primary.area),
  },
  'exhaust.primary.length': { entails: [{ drops: ['exhaust.primary.lengths'] }] },
  'exhaust.primary.bends': {},
  'exhaust.primary.steps': {},
  'exhaust.primary.lengths': { entails: [{ drops: ['exhaust.primary.length'] }] },
  'exhaust.secondary': {},
  ...below('exhaust.secondary', pipe('exhaust.secondary')),
  'exhaust.secondary.groups': {},
  'exhaust.secondary.mergeVolume': {},
  'exhaust.collector': { entails: [{ releases: ['exhaust.balance', 'exhaust.box'] }] },
  ...below('exhaust.collector', {
    ...ofCollector,
    diameter: alsoMerge(diameter),
    wall: alsoMerge(wall),
    inside: alsoMerge(insideOf),
  }),
  'exhaust.collector.mergeVolume': {},
  'exhaust.collector.exit': {},
  'exhaust.groups': {},
  'exhaust.balance': {},
  ...below('exhaust.balance', pipe('exhaust.balance')),
  'exhaust.balance.at': {},
  'exhaust.muffler': {
    entails: [
      { drops: ['exhaust.box.backPressure'], releases: ['exhaust.returned', 'exhaust.box'] },
      { to: 'open', drops: ['exhaust.box'] },
    ],
  },
  'exhaust.muffler.flow': {
    entails: [{ drops: ['exhaust.muffler.backPressure', 'exhaust.muffler.airflow'] }],
    errors: [ratingError('muffler rating', 'exhaust.muffler')],
  },
  'exhaust.muffler.at': {
    entails: [{ drops: ['exhaust.muffler.backPressure', 'exhaust.muffler.airflow'] }],
  },
  'exhaust.muffler.backPressure': {
    entails: [{ drops: ['exhaust.muffler.flow', 'exhaust.muffler.at'] }],
    errors: [
      {
        name: 'back-pressure',
        by: 'scale',
        sigma: 0.1,
        unit: '',
        part: ['exhaust.muffler'],
        reason: 'a pulsating pressure is read to 10 %',
      },
    ],
  },
  'exhaust.muffler.airflow': {
    entails: [{ drops: ['exhaust.muffler.flow', 'exhaust.muffler.at'] }],
  },
  'exhaust.box': {},
  'exhaust.box.kind': { entails: [{ releases: ['exhaust.box.volume', 'exhaust.box.backPressure'] }] },
  'exhaust.box.backPressure': {},
  'exhaust.box.volume': {},
  'exhaust.box.pipe': {},
  ...below('exhaust.box.pipe', pipe('exhaust.box.pipe')),
  'exhaust.returned': { settledBy: 'pull' },
};
