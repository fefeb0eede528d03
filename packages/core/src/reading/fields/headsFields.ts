/** Rows of the section `heads`. */
import { SIDES, type Side } from '../../combination/sides.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { below, type FieldFacts, type FieldsOf } from './fieldFacts.ts';
import { squareInch } from './written.ts';

/** Valves and what is cut to their size: the fewer, the larger. */
const SIZED_BY_COUNT: readonly FieldPath[] = [
  ...SIDES.flatMap((side): FieldPath[] => [
    `heads.${side}.valve`,
    `heads.${side}.stem`,
    `heads.${side}.throat`,
    `heads.${side}.minimumArea`,
  ]),
  'cam.camshafts',
];
/** What a sheet of one side is held against. */
const followsSheet = (side: Side): readonly FieldPath[] => [
  `heads.${side}.flowMultiplier`,
  `heads.${side}.minimumArea`,
];

const followsPort = (side: Side): readonly FieldPath[] => [
  `heads.${side}.minimumArea`,
  `heads.${side}.areaRatio`,
  `heads.${side}.throat`,
];

/** Rows that both sides have alike. */
const headSide = (side: Side): Readonly<Record<Alike, FieldFacts>> => ({
  valves: { entails: [{ drops: ['heads.valvesPerCylinder'], releases: SIZED_BY_COUNT }] },
  valve: {},
  stem: {},
  throat: { estimate: 'sizes-them' },
  flowMultiplier: {
    errors: [
      {
        name: 'flow bench',
        by: 'scale',
        sigma: 0.05,
        unit: '',
        silent: 1,
        part: [],
        reason: 'benches differ by 3 to 8 %; common to all sheets of one bench',
      },
      {
        name: `${side} flow sheet`,
        by: 'scale',
        sigma: 0.0075,
        unit: '',
        silent: 1,
        part: ['heads.flow', `heads.${side}.flow`, `heads.${side}.flowMultiplier`],
        reason: 'one bench repeats within 0.5 to 1 %',
      },
    ],
    follows: () => 1,
    ...(side === 'intake' ? { fitTakesIn: { estimates: ['induction.flowLoss'] } } : {}),
  },
  reverseFlow: { settledBy: 'pull' },
  portLength: {},
  portArea: {
    entails: [{ drops: [`heads.${side}.portVolume`], releases: followsPort(side) }],
    follows: (combination) => squareInch(combination[side].portArea),
  },
  portVolume: { entails: [{ drops: [`heads.${side}.portArea`], releases: followsPort(side) }] },
  minimumArea: {
    entails: [
      {
        drops: [`heads.${side}.portArea`, `heads.${side}.portVolume`],
        releases: [`heads.${side}.throat`],
      },
    ],
    // A flow sheet is held against a stated smallest area, and an estimate is no ground to call a measured flow impossible.
    estimate: 'rests-on-them',
  },
  areaRatio: {},
});

type Alike =
  | 'valves'
  | 'valve'
  | 'stem'
  | 'throat'
  | 'flowMultiplier'
  | 'reverseFlow'
  | 'portLength'
  | 'portArea'
  | 'portVolume'
  | 'minimumArea'
  | 'areaRatio';

export const HEADS_FIELDS: FieldsOf<'heads'> = {
  heads: { access: 'heads off' },
  'heads.valvesPerCylinder': {
    entails: [{ drops: ['heads.intake.valves', 'heads.exhaust.valves'], releases: SIZED_BY_COUNT }],
  },
  'heads.ports': { entails: [{ releases: ['heads.intake.throat', 'heads.intake.minimumArea'] }] },
  'heads.flow': {
    entails: [{ releases: ['induction.flowLoss', ...SIDES.flatMap(followsSheet)] }],
  },
  'heads.flowOf': {},
  'heads.bench': {},
  'heads.bench.name': {},
  'heads.bench.depression': {},
  'heads.bench.fixture': {},
  'heads.bench.exhaustPipe': {},
  'heads.intake': {},
  ...below('heads.intake', headSide('intake')),
  'heads.intake.flow': { entails: [{ releases: ['induction.flowLoss', ...followsSheet('intake')] }] },
  'heads.exhaust': {},
  ...below('heads.exhaust', headSide('exhaust')),
  'heads.exhaust.flow': { entails: [{ releases: followsSheet('exhaust') }] },
};
