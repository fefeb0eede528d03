/** Rows of the sections `engine` and `chamber`. */
import type { FieldsOf } from './fieldFacts.ts';
import { digits } from './written.ts';

/** What makes up the volume above the piston beside the chamber itself: a compression ratio says the same in another way. */
const PARTS_OF_VOLUME = [
  'chamber.dome',
  'chamber.dish',
  'chamber.deck',
  'chamber.gasketBore',
  'chamber.gasketThickness',
  'chamber.crevice',
] as const;
/** Beside a chamber volume they decide the ratio; without one they are only looked at. */
const DECIDES_RATIO = { beside: 'chamber.volume', drops: ['chamber.compression'] } as const;

/** What turns holds torque back only while its speed changes. */
const OF_STEADY_RUNNING = 'a forecast is of steady running, in which what turns takes no torque';

export const ENGINE_FIELDS: FieldsOf<'engine'> = {
  engine: { access: 'engine apart' },
  'engine.bore': { entails: [{ releases: ['chamber.gasketBore', 'chamber.crevice'] }] },
  'engine.stroke': {},
  'engine.cylinders': {},
  'engine.rod': {},
  'engine.layout': {},
  'engine.firingOrder': {},
  'engine.firingIntervals': {},
  'engine.banks': {},
  'engine.ratedSpeed': { access: 'settings', estimate: 'sizes-them' },
  'engine.inertia': { estimate: 'of-measuring', leftOut: OF_STEADY_RUNNING },
};

export const CHAMBER_FIELDS: FieldsOf<'chamber'> = {
  chamber: { access: 'heads off' },
  'chamber.shape': {
    entails: [{ releases: ['chamber.plug', 'chamber.squishArea', 'chamber.squishHeight'] }],
  },
  'chamber.plug': {},
  'chamber.squishArea': {
    errors: [
      {
        name: 'squish area',
        by: 'add',
        sigma: 2,
        unit: '%',
        part: ['chamber.squishArea', 'chamber.shape'],
        reason: 'the flat of a head is read to 2 % of the bore',
      },
    ],
  },
  'chamber.squishHeight': {
    errors: [
      {
        name: 'squish height',
        by: 'add',
        sigma: 0.004,
        unit: 'in',
        part: ['chamber.squishHeight', 'chamber.shape'],
        reason: 'deck, gasket and flat add up to 0.004 in',
      },
    ],
  },
  'chamber.compression': {
    entails: [{ drops: ['chamber.volume', 'chamber.volumes', ...PARTS_OF_VOLUME, 'chamber.compressions'] }],
    errors: [
      {
        name: 'compression',
        by: 'add',
        sigma: 0.25,
        unit: '',
        part: [],
        reason: 'a ratio without volumes is known to 0.25 (common practice, no source); measure them',
      },
    ],
    follows: ({ chamber }) => digits(chamber.compressionRatio),
  },
  'chamber.compressions': {
    entails: [{ drops: ['chamber.volume', 'chamber.volumes', ...PARTS_OF_VOLUME, 'chamber.compression'] }],
  },
  'chamber.volume': {
    entails: [{ drops: ['chamber.compression', 'chamber.compressions', 'chamber.volumes'] }],
  },
  'chamber.volumes': {
    entails: [{ drops: ['chamber.compression', 'chamber.compressions', 'chamber.volume'] }],
  },
  'chamber.dome': { entails: [DECIDES_RATIO] },
  'chamber.dish': { entails: [DECIDES_RATIO] },
  'chamber.deck': { entails: [DECIDES_RATIO, { releases: ['chamber.squishHeight'] }] },
  'chamber.gasketBore': { entails: [DECIDES_RATIO] },
  'chamber.gasketThickness': { entails: [DECIDES_RATIO, { releases: ['chamber.squishHeight'] }] },
  'chamber.crevice': {
    entails: [DECIDES_RATIO],
    leftOut: 'of a crevice the model has the volume, not the fuel that hides in it',
  },
};
