/** Rows of the sections `cam` and `valvetrain`. */
import { SIDES, type Side } from '../../combination/sides.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import { below, type FieldFacts, type FieldsOf, type UsualError } from './fieldFacts.ts';
import { degrees } from './written.ts';

/** A degree bushing, or an adjustable gear. */
const TURNS_CAM = 'manifold off';
const CENTRELINES: readonly FieldPath[] = ['cam.intake.centreline', 'cam.exhaust.centreline'];

/** The lines of a card belong together: an estimate of one rests on the others. */
const linesOf = (side: Side): readonly FieldPath[] => [
  `cam.${side}.advertised`,
  `cam.${side}.checkedAt`,
  `cam.${side}.at050`,
  `cam.${side}.at200`,
];

/** Advanced, the intake lobe comes earlier after top centre and the exhaust lobe earlier before it. */
const phaseError = (sign: 1 | -1): UsualError => ({
  name: 'cam phase',
  by: 'add',
  sigma: sign,
  unit: 'deg',
  part: ['cam'],
  reason: 'a cam is degreed to 1 deg',
});

/** Rows that both lobes have alike. */
function lobe(side: Side): Readonly<Record<Exclude<LobeField, 'centreline'>, FieldFacts>> {
  const table: FieldPath = `cam.${side}.table`;
  const line: FieldFacts = { entails: [{ drops: [table], releases: linesOf(side) }] };
  const duration: FieldFacts = {
    ...line,
    errors: [
      {
        name: `${side} duration`,
        by: 'add',
        sigma: 1,
        unit: 'deg',
        part: [`cam.${side}`, 'cam.lifter'],
        reason: 'cards and cams agree to 1 deg',
      },
    ],
  };
  return {
    advertised: duration,
    checkedAt: line,
    at050: duration,
    at200: line,
    lobeLift: { entails: [{ drops: [table, `cam.${side}.valveLift`] }] },
    valveLift: { entails: [{ drops: [table, `cam.${side}.lobeLift`] }] },
    cardRatio: {},
    // A measured table stands in the place of the card.
    table: { entails: [{ drops: [...linesOf(side), `cam.${side}.lobeLift`, `cam.${side}.valveLift`] }] },
  };
}

type LobeField =
  | 'advertised'
  | 'checkedAt'
  | 'at050'
  | 'at200'
  | 'lobeLift'
  | 'valveLift'
  | 'cardRatio'
  | 'centreline'
  | 'table';

/** On one shaft, where one lobe stands is where the whole cam stands; shafts of their own turn freely. */
const centreline = (side: Side, other: Side): FieldFacts => ({
  access: TURNS_CAM,
  entails: [
    { camshafts: 'shared', drops: ['cam.advance', `cam.${other}.centreline`] },
    { with: `cam.${other}.centreline`, drops: ['cam.separation'] },
    { camshafts: 'own', drops: ['cam.separation', 'cam.advance'], holds: CENTRELINES },
  ],
  errors: [phaseError(side === 'intake' ? -1 : 1)],
  follows: (combination) => degrees(combination[side].centreline),
});

export const CAM_FIELDS: FieldsOf<'cam'> = {
  cam: { access: 'cam out' },
  'cam.lifter': {
    entails: [
      {
        releases: [
          ...SIDES.flatMap(linesOf),
          'valvetrain.intakeLash',
          'valvetrain.exhaustLash',
          'friction.valvetrain',
        ],
      },
    ],
  },
  'cam.separation': {
    entails: [{ drops: ['cam.exhaust.centreline'] }],
    follows: ({ intake, exhaust }) => degrees((intake.centreline + exhaust.centreline) / 2),
  },
  'cam.advance': {
    access: TURNS_CAM,
    entails: [
      { beside: 'cam.intake.centreline', drops: ['cam.exhaust.centreline'] },
      { drops: ['cam.intake.centreline'] },
    ],
    errors: [phaseError(1)],
    follows: ({ intake, exhaust }) => degrees((exhaust.centreline - intake.centreline) / 2),
  },
  'cam.cardRatio': { entails: [{ drops: ['cam.intake.cardRatio', 'cam.exhaust.cardRatio'] }] },
  'cam.camshafts': {},
  'cam.intake': {},
  ...below('cam.intake', lobe('intake')),
  'cam.intake.centreline': centreline('intake', 'exhaust'),
  'cam.exhaust': {},
  ...below('cam.exhaust', lobe('exhaust')),
  'cam.exhaust.centreline': centreline('exhaust', 'intake'),
};

const ratio = (side: Side): FieldFacts => ({
  errors: [
    {
      name: `${side} rocker ratio`,
      by: 'scale',
      sigma: 0.02,
      unit: '',
      part: [`valvetrain.${side}Ratio`, 'valvetrain.type'],
      reason: 'stamped ratios are off by 2 % (common practice, no source); measure them',
    },
  ],
});

const lash = (side: Side): FieldFacts => ({
  errors: [
    {
      name: `${side} lash`,
      by: 'add',
      sigma: 0.002,
      unit: 'in',
      part: [`valvetrain.${side}Lash`],
      reason: 'set and grown to 0.002 in',
    },
  ],
});

export const VALVETRAIN_FIELDS: FieldsOf<'valvetrain'> = {
  valvetrain: { access: 'on the stand' },
  'valvetrain.type': {
    access: 'cam out',
    entails: [
      {
        releases: [
          'valvetrain.intakeRatio',
          'valvetrain.exhaustRatio',
          'valvetrain.intakeLash',
          'valvetrain.exhaustLash',
          'valvetrain.flex',
          'friction.valvetrain',
          'cam.camshafts',
        ],
      },
    ],
  },
  'valvetrain.intakeRatio': ratio('intake'),
  'valvetrain.exhaustRatio': ratio('exhaust'),
  'valvetrain.ratioIs': {},
  'valvetrain.intakeLash': lash('intake'),
  'valvetrain.exhaustLash': lash('exhaust'),
  'valvetrain.flex': {},
};
