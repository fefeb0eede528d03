/** Rows of the sections that say how the engine runs, and of the file's own lines. */
import type { FieldsOf } from './fieldFacts.ts';
import { digits } from './written.ts';

const FUEL: FieldsOf<'fuel'> = {
  fuel: { entails: [{ releases: ['induction.evaporation', 'induction.vapour', 'mixture.scatter'] }] },
  'fuel.name': {},
  'fuel.atoms': {},
  'fuel.atoms.C': {},
  'fuel.atoms.H': {},
  'fuel.atoms.O': {},
  'fuel.heatingValue': {},
  'fuel.latentHeat': {},
  'fuel.researchOctane': {},
  'fuel.motorOctane': {},
};

const MIXTURE: FieldsOf<'mixture'> = {
  mixture: {},
  'mixture.lambda': {
    entails: [{ drops: ['mixture.airFuelRatio'] }],
    follows: ({ lambda }) => digits(lambda),
  },
  'mixture.airFuelRatio': { entails: [{ drops: ['mixture.lambda'] }] },
  // The cylinders as they are say more than how far apart they usually are.
  'mixture.differences': { entails: [{ drops: ['mixture.scatter'] }] },
  'mixture.scatter': { entails: [{ drops: ['mixture.differences'] }] },
};

const BURN: FieldsOf<'burn'> = {
  burn: { settledBy: 'pull' },
  'burn.timing': {},
  'burn.ca50': { entails: [{ drops: ['burn.spark', 'burn.timing'] }] },
  'burn.spark': { entails: [{ drops: ['burn.ca50', 'burn.timing'] }] },
  'burn.duration': {},
  'burn.durationMultiplier': {},
  'burn.efficiency': {},
  'burn.octaneOffset': {},
  'burn.heard': {},
};

const HEAT: FieldsOf<'heat'> = {
  heat: { access: 'heads off', settledBy: 'pull' },
  'heat.model': {},
  'heat.multiplier': {},
  'heat.coolant': {
    entails: [
      {
        releases: [
          'heat.head',
          'heat.piston',
          'heat.liner',
          'induction.heating',
          'induction.runner.wallTemperature',
        ],
      },
    ],
  },
  'heat.head': {},
  'heat.piston': {},
  'heat.liner': {},
};

const FRICTION: FieldsOf<'friction'> = {
  friction: { access: 'engine apart' },
  'friction.valvetrain': { access: 'cam out' },
  'friction.multiplier': { settledBy: 'pull' },
  'friction.accessories': { access: 'on the stand' },
  'friction.mainBearings': {},
  'friction.mainDiameter': {},
  'friction.mainLength': {},
  'friction.rodDiameter': {},
  'friction.rodLength': {},
};

/** Three ways to say how moist the air is. */
const WEATHER: FieldsOf<'weather'> = {
  weather: {},
  'weather.barometer': {},
  'weather.temperature': {},
  'weather.humidity': { entails: [{ drops: ['weather.vapourPressure', 'weather.dewPoint'] }] },
  'weather.vapourPressure': { entails: [{ drops: ['weather.humidity', 'weather.dewPoint'] }] },
  'weather.dewPoint': { entails: [{ drops: ['weather.humidity', 'weather.vapourPressure'] }] },
};

const LIMITS: FieldsOf<'limits'> = {
  limits: {},
  'limits.octaneMargin': {},
  'limits.pistonSpeed': {},
  'limits.valveLift': {},
  'limits.redline': {},
};

const CALIBRATION: FieldsOf<'calibration'> = {
  calibration: {},
  'calibration.sheets': {},
  'calibration.knobs': {},
  'calibration.correlation': {},
  'calibration.dyno': {},
  'calibration.dyno.reads': {},
  'calibration.dyno.spread': {},
  'calibration.doubt': {},
};

type Running =
  | 'fuel'
  | 'mixture'
  | 'burn'
  | 'heat'
  | 'friction'
  | 'weather'
  | 'limits'
  | 'calibration'
  | 'name'
  | 'job'
  | 'customer'
  | 'notes'
  | 'correction'
  | 'pullRate'
  | 'units';

export const RUNNING_FIELDS: FieldsOf<Running> = {
  ...FUEL,
  ...MIXTURE,
  ...BURN,
  ...HEAT,
  ...FRICTION,
  ...WEATHER,
  ...LIMITS,
  ...CALIBRATION,
  name: {},
  job: {},
  customer: {},
  notes: {},
  correction: {},
  pullRate: {},
  units: {},
};
