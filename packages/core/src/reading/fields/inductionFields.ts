/** Rows of the section `induction`. */
import type { FieldPath } from '../schema/fieldPath.ts';
import type { ErrorName } from './errorName.ts';
import type { FieldsOf, UsualError } from './fieldFacts.ts';

/** How warm the charge comes to the port. */
const WARMTH: readonly FieldPath[] = [
  'induction.heating',
  'induction.vapour',
  'induction.runner.wallTemperature',
];

/** Estimates that rest on whether a carburetor or a throttle meters the engine. */
export const RESTS_ON_METERING: readonly FieldPath[] = [
  'induction.injection',
  'induction.manifoldHeat',
  'induction.evaporation',
  'mixture.scatter',
  ...WARMTH,
];

/** A rating in print; for mufflers too. */
export const ratingError = (name: ErrorName, part: FieldPath): UsualError => ({
  name,
  by: 'scale',
  sigma: 0.04,
  unit: '',
  part: [part],
  reason: 'published ratings stand to 4 %',
});

/** Sizes that follow those of the bores above them. */
const UNDER_BORES: readonly FieldPath[] = [
  'induction.spacer.bore',
  'induction.spacer.bores',
  'induction.spacer.opening',
  'induction.restrictor.bores',
];

/** Another rating is another carburetor. */
const OTHER_CARBURETOR = { drops: ['induction.carburetor.venturi', 'induction.carburetor.height'] } as const;

export const INDUCTION_FIELDS: FieldsOf<'induction'> = {
  induction: { access: 'manifold off' },
  'induction.carburetor': {
    access: 'on the stand',
    entails: [{ drops: ['induction.throttle'], releases: UNDER_BORES }],
  },
  'induction.carburetor.rating': {
    entails: [OTHER_CARBURETOR],
    errors: [ratingError('carburetor rating', 'induction.carburetor')],
  },
  'induction.carburetor.barrels': {
    entails: [OTHER_CARBURETOR, { releases: ['induction.carburetor.ratedAt'] }],
  },
  'induction.carburetor.ratedAt': { entails: [OTHER_CARBURETOR] },
  'induction.carburetor.venturi': {
    // Another venturi is another carburetor too, where no rating is stated.
    entails: [{ releases: ['induction.carburetor.rating', 'induction.carburetor.height'] }],
    errors: [
      {
        name: 'venturi coefficient',
        by: 'scale',
        sigma: 0.03,
        unit: '',
        part: ['induction.carburetor'],
        reason: 'what flows for its area is known to 6 %',
      },
    ],
  },
  'induction.carburetor.height': {},
  'induction.carburetor.count': {
    leftOut: 'of more carburetors the model has the flow area, not how evenly they feed the cylinders',
  },
  'induction.throttle': {
    access: 'on the stand',
    entails: [{ drops: ['induction.carburetor'], releases: UNDER_BORES }],
  },
  'induction.throttle.diameter': {
    errors: [
      {
        name: 'throttle',
        by: 'scale',
        sigma: 0.02,
        unit: '',
        part: ['induction.throttle'],
        reason: 'its flow for its size is known to 4 %',
      },
    ],
  },
  'induction.throttle.count': {},
  'induction.flowMultiplier': {
    follows: () => 1,
    fitTakesIn: {
      estimates: ['induction.carburetor.rating', 'induction.throttle.diameter'],
      errors: ['carburetor rating', 'throttle'],
    },
  },
  'induction.airCleaner': { access: 'on the stand' },
  'induction.airCleaner.flow': { errors: [ratingError('air cleaner rating', 'induction.airCleaner')] },
  'induction.airCleaner.at': {},
  'induction.restrictor': { access: 'on the stand' },
  'induction.restrictor.kind': {
    entails: [
      {
        releases: [
          'induction.restrictor.bores',
          'induction.restrictor.discharge',
          'induction.restrictor.recovery',
        ],
      },
    ],
  },
  'induction.restrictor.bore': {},
  'induction.restrictor.bores': {},
  'induction.restrictor.discharge': {},
  'induction.restrictor.recovery': {},
  'induction.spacer': {
    access: 'on the stand',
    leftOut:
      'of a spacer the model has volume, length and area, not how air and fuel mix in it and turn into the runners',
  },
  'induction.spacer.kind': {
    entails: [
      {
        drops: ['induction.spacer.bore', 'induction.spacer.bores', 'induction.spacer.opening'],
        releases: ['induction.spacer.loss'],
      },
    ],
  },
  'induction.spacer.height': {},
  'induction.spacer.bore': {},
  'induction.spacer.bores': {},
  'induction.spacer.opening': {},
  'induction.spacer.loss': {},
  'induction.inletDuct': { access: 'on the stand' },
  'induction.inletDuct.inside': {},
  'induction.inletDuct.length': {},
  'induction.groups': {},
  'induction.divider': {},
  'induction.divider.opening': {},
  'induction.divider.discharge': {},
  'induction.balance': {},
  'induction.balance.inside': {},
  'induction.balance.length': {},
  'induction.balance.at': {},
  'induction.balance.pairs': {},
  'induction.manifold': {
    entails: [
      {
        drops: ['induction.groups', 'induction.divider'],
        releases: [
          'induction.plenum',
          'induction.runner',
          'induction.flowLoss',
          'induction.manifoldHeat',
          'induction.heating',
          'induction.vapour',
          'mixture.scatter',
          'induction.carburetor.count',
          'induction.throttle.count',
        ],
      },
    ],
  },
  'induction.plenum': {
    leftOut: 'of a larger plenum the model has the volume, not how air and fuel turn into the runners',
  },
  'induction.airbox': {},
  'induction.airbox.volume': {},
  'induction.airbox.inlet': {},
  'induction.airbox.inlet.inside': {},
  'induction.airbox.inlet.length': {},
  'induction.runner': {},
  'induction.runner.length': {},
  'induction.runner.lengthMultiplier': {
    settledBy: 'pull',
    fitTakesIn: { estimates: ['induction.runner.length'] },
  },
  'induction.runner.throttleAt': {},
  'induction.runner.mouth': {},
  'induction.runner.entryArea': {},
  'induction.runner.exitArea': {},
  'induction.runner.wallTemperature': { settledBy: 'pull' },
  'induction.flowLoss': {},
  'induction.injection': { entails: [{ releases: ['induction.evaporation', ...WARMTH] }] },
  'induction.manifoldHeat': { entails: [{ releases: WARMTH }] },
  'induction.heating': { settledBy: 'pull' },
  'induction.evaporation': { settledBy: 'pull' },
  'induction.vapour': { settledBy: 'pull' },
};
