/** Quantities as people write them (`4.155 in`, `850 cfm`, `60 degF`) to SI and back; nothing else knows units. */

import { unitSize } from '#units';
import { DomainError } from './errors.ts';
import type { Result } from './result.ts';
import type { UnitSize } from './unitSize.ts';

/** What a field measures. Angles are kept in degrees and speeds in rpm, their rates in rpm/s; everything else in SI. */
export type Dimension =
  | 'length'
  | 'area'
  | 'volume'
  | 'pressure'
  | 'flow'
  | 'angle'
  | 'temperature'
  | 'temperature-difference'
  | 'speed'
  | 'piston-speed'
  | 'speed-rate'
  | 'inertia'
  | 'share'
  | 'specific-energy';

/** Why a text is not the quantity that was asked for. */
export interface QuantityProblem {
  /** Stable, for machines. */
  readonly code:
    | 'unit-missing'
    | 'unit-unknown'
    | 'unit-mismatch'
    | 'decimal-comma'
    | 'not-finite'
    | 'not-a-quantity';
  /** What is wrong, for people. */
  readonly message: string;
  /** What to write instead; null where that is not known. */
  readonly hint: string | null;
}

/** A number with its unit, as read. */
export interface Quantity {
  /** The number this program keeps: SI, but degrees for angles and 1/min for speeds. */
  readonly kept: number;
  /** Unit as it was written, spelled as usual. */
  readonly unit: string;
}

interface DimensionFacts {
  readonly noun: string;
  /** Unit of the number this program keeps; empty where it is a pure number. */
  readonly kept: string;
  readonly example: string;
  readonly common: readonly string[];
}

const FACTS: Readonly<Record<Dimension, DimensionFacts>> = {
  length: { noun: 'a length', kept: 'm', example: '4.000 in', common: ['in', 'mm', 'cm', 'thou', 'ft', 'm'] },
  area: { noun: 'an area', kept: 'm^2', example: '2.10 in2', common: ['in2', 'cm2', 'mm2', 'm2'] },
  volume: { noun: 'a volume', kept: 'm^3', example: '68 cc', common: ['cc', 'in3', 'l', 'ml', 'm3'] },
  pressure: {
    noun: 'a pressure',
    kept: 'Pa',
    example: '28 inH2O',
    common: ['inHg', 'inH2O', 'psi', 'kPa', 'hPa', 'mbar', 'bar', 'mmHg', 'Pa'],
  },
  flow: {
    noun: 'an air flow',
    kept: 'm^3/s',
    example: '850 cfm',
    common: ['cfm', 'l/s', 'm3/h', 'm3/min', 'm3/s'],
  },
  angle: { noun: 'an angle', kept: 'deg', example: '224 deg', common: ['deg', 'rad'] },
  temperature: { noun: 'a temperature', kept: 'K', example: '60 degF', common: ['degF', 'degC', 'K'] },
  'temperature-difference': {
    noun: 'a temperature difference',
    kept: 'K',
    example: '15 K',
    common: ['K', 'degC', 'degF'],
  },
  speed: { noun: 'an engine speed', kept: 'rpm', example: '5500 rpm', common: ['rpm'] },
  'piston-speed': { noun: 'a piston speed', kept: 'm/s', example: '4200 ft/min', common: ['ft/min', 'm/s'] },
  'speed-rate': { noun: 'a rate of engine speed', kept: 'rpm/s', example: '300 rpm/s', common: ['rpm/s'] },
  inertia: {
    noun: 'a moment of inertia',
    kept: 'kg*m^2',
    example: '0.28 kg m2',
    common: ['kg m2', 'lb-ft2', 'lb-in2'],
  },
  share: { noun: 'a share', kept: '', example: '6 %', common: ['%'] },
  'specific-energy': {
    noun: 'a heat per mass',
    kept: 'J/kg',
    example: '43.5 MJ/kg',
    common: ['MJ/kg', 'kJ/kg', 'J/kg'],
  },
};

/** Other spellings of a unit, lower case and without blanks. */
const SPELLINGS: Readonly<Record<string, string>> = {
  '"': 'in',
  '”': 'in',
  'in.': 'in',
  sqin: 'in^2',
  cuin: 'in^3',
  ci: 'in^3',
  cid: 'in^3',
  cui: 'in^3',
  ccm: 'cc',
  cfm: 'cfm',
  fpm: 'ft/min',
  inhg: 'inHg',
  '"hg': 'inHg',
  inh2o: 'inH2O',
  '"h2o': 'inH2O',
  mmhg: 'mmHg',
  kpa: 'kPa',
  hpa: 'hPa',
  '°': 'deg',
  degree: 'deg',
  degrees: 'deg',
  degf: 'degF',
  '°f': 'degF',
  f: 'degF',
  degc: 'degC',
  '°c': 'degC',
  c: 'degC',
  k: 'K',
  kelvin: 'K',
  'r/min': 'rpm',
  '1/min': 'rpm',
  rpm: 'rpm',
  'rpm/sec': 'rpm/s',
  'rpm/second': 'rpm/s',
  rpmpersecond: 'rpm/s',
  kgm2: 'kg*m^2',
  'kgm^2': 'kg*m^2',
  'kg-m2': 'kg*m^2',
  'kg-m^2': 'kg*m^2',
  kg·m2: 'kg*m^2',
  lbft2: 'lb*ft^2',
  'lbft^2': 'lb*ft^2',
  'lb-ft2': 'lb*ft^2',
  'lb-ft^2': 'lb*ft^2',
  lbin2: 'lb*in^2',
  'lbin^2': 'lb*in^2',
  'lb-in2': 'lb*in^2',
  'lb-in^2': 'lb*in^2',
  percent: '%',
};

const NUMBER = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/su;
/** `1-3/4 in`, `1 3/4 in`, `3/4 in`: how tube and stem sizes are written. */
const FRACTION = /^(?:(\d+)[ -])?(\d+)\/(\d+)\s*(.*)$/su;
const COMMA = /^[+-]?\d+,\d/u;
const MAX_TEXT = 60;
/** What inches of a pressure may be. */
const COLUMN = 'inches of water are inH2O, as on a flow bench; of mercury inHg';

/**
 * The number in `text`, in the kept unit of `dimension`. Temperatures are absolute (`0 degC` is 273.15 K),
 * temperature differences are not. A share is written in percent.
 *
 * @example
 * ```ts
 * const bore = parseQuantity('4.155 in', 'length');
 * if (bore.ok) console.log(bore.value.kept); // 0.105537 m
 * ```
 */
export function parseQuantity(text: string, dimension: Dimension): Result<Quantity, QuantityProblem> {
  const facts = FACTS[dimension];
  const trimmed = text.trim();
  if (trimmed.length > MAX_TEXT)
    return failure('not-a-quantity', `is too long for ${facts.noun}`, exampleHint(facts));
  if (COMMA.test(trimmed)) {
    const hint = `write ${trimmed.replace(',', '.')}`;
    return failure('decimal-comma', `has a decimal comma in '${trimmed}'`, hint);
  }
  const parts = splitNumber(trimmed);
  if (parts === null) {
    return failure(
      'not-a-quantity',
      `needs ${facts.noun} with its unit, got '${trimmed}'`,
      exampleHint(facts),
    );
  }
  if (!Number.isFinite(parts.number))
    return failure('not-finite', `is not a finite number: '${trimmed}'`, null);
  if (parts.unit === '') {
    return failure('unit-missing', `needs a unit: '${trimmed}' could be anything`, exampleHint(facts));
  }
  return convert(parts.number, parts.unit, dimension, trimmed);
}

/**
 * A kept value in `unit`, the reverse of {@link parseQuantity}; an empty unit gives the number back.
 *
 * @throws {@link DomainError} where there is no such unit
 *
 * @example
 * ```ts
 * toUnit(0.105537, 'in', 'length'); // 4.155
 * ```
 */
export function toUnit(value: number, unit: string, dimension: Dimension): number {
  if (unit === '') return value;
  if (dimension === 'share') return value * 100;
  const name = normalise(unit);
  const scale = scaleOf(unitSize(name), dimension);
  if (scale === null) throw new DomainError('unit', unit, `one of ${FACTS[dimension].common.join(', ')}`);
  return value / scale.factor - scale.zero;
}

/** How a quantity of this dimension is asked for: `a length with its unit`. */
export function describeDimension(dimension: Dimension): string {
  return `${FACTS[dimension].noun} with its unit`;
}

/** How a quantity of this dimension is written: `4.000 in`. */
export function exampleOf(dimension: Dimension): string {
  return FACTS[dimension].example;
}

/** Units usual for a dimension, in the order to offer them. */
export function commonUnits(dimension: Dimension): readonly string[] {
  return FACTS[dimension].common;
}

function convert(
  number: number,
  written: string,
  dimension: Dimension,
  text: string,
): Result<Quantity, QuantityProblem> {
  const facts = FACTS[dimension];
  const name = normalise(written);
  if (dimension === 'share') {
    if (name === '%') return { ok: true, value: { kept: number / 100, unit: name } };
    return failure('unit-mismatch', `needs ${facts.noun} in %, got '${text}'`, exampleHint(facts));
  }
  if (name === '%') return failure('unit-mismatch', `needs ${facts.noun}, got '${text}'`, exampleHint(facts));
  const size = unitSize(name);
  const hint = `use ${facts.common.join(', ')}`;
  if (size === null) return failure('unit-unknown', `has an unknown unit '${written}' in '${text}'`, hint);
  const scale = scaleOf(size, dimension);
  if (scale === null) {
    const column = dimension === 'pressure' && name === 'in' ? COLUMN : hint;
    return failure('unit-mismatch', `needs ${facts.noun}, got '${text}'`, column);
  }
  const value = (number + scale.zero) * scale.factor;
  if (!Number.isFinite(value)) return failure('not-finite', `is not a finite number: '${text}'`, null);
  return { ok: true, value: { kept: value, unit: name } };
}

/** The number and the unit, as written, of a quantity such as `2-1/8 in`; null where it starts with no number. */
export function splitNumber(text: string): { number: number; unit: string } | null {
  const fraction = FRACTION.exec(text);
  if (fraction !== null && Number(fraction[3]) > 0) {
    const whole = fraction[1] === undefined ? 0 : Number(fraction[1]);
    return { number: whole + Number(fraction[2]) / Number(fraction[3]), unit: (fraction[4] ?? '').trim() };
  }
  const plain = NUMBER.exec(text);
  return plain === null ? null : { number: Number(plain[1]), unit: (plain[2] ?? '').trim() };
}

function normalise(unit: string): string {
  const compact = unit.replace(/\s+/gu, '').replace(/²/gu, '2').replace(/³/gu, '3');
  const lower = compact.toLowerCase();
  if (Object.hasOwn(SPELLINGS, lower)) return SPELLINGS[lower];
  return compact.replace(/^(in|ft|mm|cm|m)([23])(?=$|\/)/u, '$1^$2');
}

/** From numbers of a unit to kept ones: add `zero`, then multiply; null where the unit measures something else. */
function scaleOf(unit: UnitSize | null, dimension: Dimension): { zero: number; factor: number } | null {
  const kept = unitSize(FACTS[dimension].kept);
  if (unit === null || kept === null || unit.powers.some((power, i) => power !== kept.powers[i])) return null;
  return { zero: dimension === 'temperature' ? unit.zero : 0, factor: unit.size / kept.size };
}

function failure(
  code: QuantityProblem['code'],
  message: string,
  hint: string | null,
): Result<Quantity, QuantityProblem> {
  return { ok: false, problems: [{ code, message, hint }] };
}

function exampleHint(facts: DimensionFacts): string {
  return `write it like ${facts.example}`;
}
