/**
 * Units for a page: the few dozen that files write, as a table, since the units of mathjs are a tenth of all that a page loads. Tests hold it
 * to theirs, unit by unit.
 */

import {
  BAR,
  CUBIC_FOOT_A_MINUTE,
  FOOT,
  HORSEPOWER,
  INCH,
  INCH_OF_MERCURY,
  INCH_OF_WATER,
  STANDARD_ATMOSPHERE,
} from './constants.ts';
import type { UnitSize } from './unitSize.ts';
import { UNIT_WORDS } from './unitWords.ts';

/** Powers of metre, kilogram, second, kelvin and degree, in this order. */
const NONE = [0, 0, 0, 0, 0];
const LENGTH = [1, 0, 0, 0, 0];
const VOLUME = [3, 0, 0, 0, 0];
const MASS = [0, 1, 0, 0, 0];
const TIME = [0, 0, 1, 0, 0];
const SPEED_OF_TURNING = [0, 0, -1, 0, 0];
const TEMPERATURE = [0, 0, 0, 1, 0];
const ANGLE = [0, 0, 0, 0, 1];
const FORCE = [1, 1, -2, 0, 0];
const PRESSURE = [-1, 1, -2, 0, 0];
const ENERGY = [2, 1, -2, 0, 0];
const POWER = [2, 1, -3, 0, 0];
const FLOW = [3, 0, -1, 0, 0];

type Row = readonly [size: number, powers: readonly number[], zero?: number];

/** Units that take prefixes, by symbol: `mm`, `hPa`. Case counts. */
const SYMBOLS: Readonly<Record<string, Row>> = {
  m: [1, LENGTH],
  g: [1e-3, MASS],
  s: [1, TIME],
  l: [1e-3, VOLUME],
  L: [1e-3, VOLUME],
  N: [1, FORCE],
  Pa: [1, PRESSURE],
  bar: [BAR, PRESSURE],
  J: [1, ENERGY],
  W: [1, POWER],
  Hz: [1, SPEED_OF_TURNING],
};

const PREFIXES: readonly (readonly [symbol: string, word: string, factor: number])[] = [
  ['', '', 1],
  ['u', 'micro', 1e-6],
  ['m', 'milli', 1e-3],
  ['c', 'centi', 1e-2],
  ['d', 'deci', 1e-1],
  ['h', 'hecto', 1e2],
  ['k', 'kilo', 1e3],
  ['M', 'mega', 1e6],
  ['G', 'giga', 1e9],
];

/**
 * Units that take none. Sizes of inch, foot, pound, gallon and of what is made of them are exact by definition (international yard and pound,
 * 1959; NIST SP 811, 2008, appendix B.8); the pound-force is one pound at 9.80665 m/s2, the British thermal unit that of the international table.
 */
const NAMED: Readonly<Record<string, Row>> = {
  in: [INCH, LENGTH],
  inch: [INCH, LENGTH],
  inches: [INCH, LENGTH],
  ft: [FOOT, LENGTH],
  foot: [FOOT, LENGTH],
  feet: [FOOT, LENGTH],
  yd: [3 * FOOT, LENGTH],
  thou: [INCH / 1000, LENGTH],
  mil: [INCH / 1000, LENGTH],
  micron: [1e-6, LENGTH],
  cc: [1e-6, VOLUME],
  gal: [231 * INCH ** 3, VOLUME],
  kg: [1, MASS],
  lb: [0.45359237, MASS],
  lbs: [0.45359237, MASS],
  lbm: [0.45359237, MASS],
  oz: [0.45359237 / 16, MASS],
  sec: [1, TIME],
  min: [60, TIME],
  minute: [60, TIME],
  h: [3600, TIME],
  hr: [3600, TIME],
  hour: [3600, TIME],
  lbf: [4.4482216152605, FORCE],
  kgf: [9.80665, FORCE],
  psi: [4.4482216152605 / INCH ** 2, PRESSURE],
  atm: [STANDARD_ATMOSPHERE, PRESSURE],
  torr: [STANDARD_ATMOSPHERE / 760, PRESSURE],
  mmhg: [INCH_OF_MERCURY / 25.4, PRESSURE],
  inhg: [INCH_OF_MERCURY, PRESSURE],
  mmh2o: [INCH_OF_WATER / 25.4, PRESSURE],
  cmh2o: [INCH_OF_WATER / 2.54, PRESSURE],
  inh2o: [INCH_OF_WATER, PRESSURE],
  btu: [1055.05585262, ENERGY],
  hp: [HORSEPOWER, POWER],
  cfm: [CUBIC_FOOT_A_MINUTE, FLOW],
  rpm: [1 / 60, SPEED_OF_TURNING],
  deg: [1, ANGLE],
  rad: [180 / Math.PI, ANGLE],
  k: [1, TEMPERATURE],
  degc: [1, TEMPERATURE, 273.15],
  celsius: [1, TEMPERATURE, 273.15],
  degf: [5 / 9, TEMPERATURE, 459.67],
  fahrenheit: [5 / 9, TEMPERATURE, 459.67],
  degr: [5 / 9, TEMPERATURE],
};

/** Units as shop software shouts them, where no other unit is meant: `MM`, `KPA`. */
const SHOUTED: Readonly<Record<string, string>> = { pa: 'Pa', kpa: 'kPa', hpa: 'hPa', kj: 'kJ' };

const FACTOR = /^([a-z]+\d?[a-z]*)(?:\^(-?\d+))?$/iu;
/** Longest name of a unit worth a look. */
const MAX_NAME = 24;

/** See {@link UnitSizes}. */
export function unitSize(name: string): UnitSize | null {
  if (name.length > MAX_NAME) return null;
  const alone = sizeOf(name);
  if (alone !== null) return { size: alone[0], zero: alone[2] ?? 0, powers: alone[1] };
  let size = 1;
  let powers: readonly number[] = NONE;
  // Each factor with the sign before it; the first is multiplied.
  for (const [, sign, text] of `*${name}`.matchAll(/([*/])([^*/]*)/gu)) {
    const parts = FACTOR.exec(text);
    const unit = parts === null ? null : sizeOf(parts[1]);
    if (parts === null || unit === null) return null;
    const power = Number(parts[2] ?? 1) * (sign === '*' ? 1 : -1);
    size *= unit[0] ** power;
    powers = powers.map((value, i) => value + power * unit[1][i]);
  }
  return { size, zero: 0, powers };
}

function sizeOf(name: string): Row | null {
  const lower = name.toLowerCase();
  return (
    // A symbol with prefix first: `mPa` and `MPa` differ by their case alone.
    prefixed(name) ??
    (Object.hasOwn(NAMED, lower) ? NAMED[lower] : null) ??
    inWords(lower.replace(/s$/u, '')) ??
    prefixed(Object.hasOwn(SHOUTED, lower) ? SHOUTED[lower] : lower)
  );
}

function prefixed(name: string): Row | null {
  for (const [symbol, , factor] of PREFIXES) {
    const rest = name.slice(symbol.length);
    if (name.startsWith(symbol) && Object.hasOwn(SYMBOLS, rest))
      return [factor * SYMBOLS[rest][0], SYMBOLS[rest][1]];
  }
  return null;
}

function inWords(name: string): Row | null {
  for (const [symbol, word] of PREFIXES) {
    const rest = name.slice(word.length);
    if (name.startsWith(word) && Object.hasOwn(UNIT_WORDS, rest)) return prefixed(symbol + UNIT_WORDS[rest]);
  }
  return null;
}
