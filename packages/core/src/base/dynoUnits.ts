/** Units as dyno sheets head their columns: torque, power, flow, pressure, temperature. Factors to SI or to the unit named. */
import { FOOT, HORSEPOWER, INCH_OF_MERCURY, INCH_OF_WATER, POUND_FOOT, PSI } from './constants.ts';

/** What a column of a dyno sheet measures. */
export type DynoDimension =
  | 'speed'
  | 'torque'
  | 'power'
  | 'mass-flow'
  | 'pressure'
  | 'temperature'
  | 'specific-consumption'
  | 'angle'
  | 'ratio';

/** From the written number to the kept one: times `factor`, plus `offset`. */
export interface DynoUnit {
  readonly factor: number;
  readonly offset: number;
}

/** Horsepower [kW]. */
const HORSEPOWER_KW = HORSEPOWER * 1e-3;
/** Metric horsepower, 75 kgf m/s [kW], exact by definition. */
const METRIC_HORSEPOWER_KW = 0.73549875;
/** Pound [kg], exact by definition. */
const POUND_KG = 0.45359237;
/** Density of dry air at 60 F and 14.696 psi [kg/m3]: a standard cubic foot weighs 0.0763 lb. */
const STANDARD_DENSITY = 1.2224;

const times = (factor: number): DynoUnit => ({ factor, offset: 0 });

/** Kept units: 1/min, N m, kW, kg/h, kPa, K, g/kWh, deg, plain number. Keys are lower case without blanks, dots and dashes. */
const UNITS: Readonly<Record<DynoDimension, Readonly<Record<string, DynoUnit>>>> = {
  speed: { rpm: times(1), '1/min': times(1), 'r/min': times(1), min1: times(1), krpm: times(1000) },
  torque: {
    lbft: times(POUND_FOOT),
    lbsft: times(POUND_FOOT),
    lbfft: times(POUND_FOOT),
    ftlb: times(POUND_FOOT),
    ftlbs: times(POUND_FOOT),
    ftlbf: times(POUND_FOOT),
    nm: times(1),
    kgm: times(9.80665),
    mkg: times(9.80665),
  },
  power: {
    hp: times(HORSEPOWER_KW),
    bhp: times(HORSEPOWER_KW),
    kw: times(1),
    ps: times(METRIC_HORSEPOWER_KW),
    cv: times(METRIC_HORSEPOWER_KW),
  },
  'mass-flow': {
    'lb/h': times(POUND_KG),
    'lb/hr': times(POUND_KG),
    'lbs/h': times(POUND_KG),
    'lbs/hr': times(POUND_KG),
    pph: times(POUND_KG),
    'kg/h': times(1),
    'kg/hr': times(1),
    'g/s': times(3.6),
    scfm: times(FOOT ** 3 * STANDARD_DENSITY * 60),
  },
  pressure: {
    inhg: times(INCH_OF_MERCURY * 1e-3),
    '"hg': times(INCH_OF_MERCURY * 1e-3),
    inh2o: times(INCH_OF_WATER * 1e-3),
    kpa: times(1),
    hpa: times(0.1),
    mbar: times(0.1),
    bar: times(100),
    psi: times(PSI * 1e-3),
    psig: times(PSI * 1e-3),
    mmhg: times(0.133322387415),
    torr: times(0.133322368421),
  },
  temperature: {
    f: { factor: 5 / 9, offset: 459.67 * (5 / 9) },
    degf: { factor: 5 / 9, offset: 459.67 * (5 / 9) },
    '°f': { factor: 5 / 9, offset: 459.67 * (5 / 9) },
    c: { factor: 1, offset: 273.15 },
    degc: { factor: 1, offset: 273.15 },
    '°c': { factor: 1, offset: 273.15 },
    k: times(1),
  },
  'specific-consumption': {
    'lb/hph': times((POUND_KG * 1000) / HORSEPOWER_KW),
    'lb/hphr': times((POUND_KG * 1000) / HORSEPOWER_KW),
    'g/kwh': times(1),
  },
  angle: { deg: times(1), degbtdc: times(1), '°': times(1) },
  ratio: { '%': times(0.01), ':1': times(1) },
};

/** Units to offer in a hint, by dimension. */
export const DYNO_EXAMPLES: Readonly<Record<DynoDimension, string>> = {
  speed: 'rpm',
  torque: 'lb-ft or Nm',
  power: 'hp or kW',
  'mass-flow': 'lb/h or kg/h',
  pressure: 'inHg or kPa',
  temperature: 'degF or degC',
  'specific-consumption': 'lb/hp-h or g/kWh',
  angle: 'deg',
  ratio: '%',
};

/** The unit called `written` in a dimension; null where it is none of it. */
export function dynoUnit(dimension: DynoDimension, written: string): DynoUnit | null {
  const key = keyOf(written);
  return Object.hasOwn(UNITS[dimension], key) ? UNITS[dimension][key] : null;
}

/** Whether it is pound-feet or mechanical horsepower. */
export function isTradeUnit({ factor }: DynoUnit): boolean {
  return factor === POUND_FOOT || factor === HORSEPOWER_KW;
}

/** Whether any dimension has a unit of this name. */
export function isDynoUnit(written: string): boolean {
  const key = keyOf(written);
  return Object.values(UNITS).some((units) => Object.hasOwn(units, key));
}

function keyOf(written: string): string {
  return written
    .toLowerCase()
    .replace(/[\s.·*_-]+/gu, '')
    .replace(/⋅/gu, '');
}
