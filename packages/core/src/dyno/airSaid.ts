/** Air of the day in a line as people write it: `Baro 29.40, Air 84 F, Vap .53`; `998 mbar 21 C RH 48 %`. */
import { dynoUnit } from '../base/dynoUnits.ts';

/** What a line says of the air. */
export interface AirSaid {
  /** [kPa] */
  readonly barometer?: number;
  /** [K] */
  readonly temperature?: number;
  /** [kPa] */
  readonly vapourPressure?: number;
  /** [-] */
  readonly humidity?: number;
  /** [K] */
  readonly dewPoint?: number;
}

type Kind = keyof AirSaid;

/** A number with the words before it and the unit behind it. */
const FIGURE =
  /([a-z][a-z ]{0,24})?(?:\.(?=\s))?[\s:=]*([+-]?(?:\d+[.,]?\d*|[.,]\d+))\s*(in\.?\s?hg|"\s?hg|mm\s?hg|mbar|hpa|kpa|torr|psi|%(?:\s*(?:rh\b|rel|hum))?|(?:°|deg\.?)?\s?[cfk](?![a-z]))?/giu;

/** Figures of something else; a wet bulb and a specific humidity are of the air, and not read. */
const OTHERS =
  /\b(wet|specific|absolute hum\w*|grains?|density|oil|water|coolant|fuel|exhaust|egt|fan|torque|power|hp|rpm|run|pull|lift|bore|stroke)\b/u;

/** Air of a room is never as hot in degrees Celsius, so that a number from here on without its unit is in Fahrenheit. */
const FAHRENHEIT_FROM = 50;

/** Barometers that carry no unit, by what no other unit gives: inHg, kPa, mbar. */
const BAROMETERS: readonly (readonly [unit: string, low: number, high: number])[] = [
  ['inhg', 20, 32.5],
  ['kpa', 67, 110],
  ['mbar', 670, 1100],
];

/**
 * The air that a line speaks of; null where it doesn't. Temperatures and vapour pressures need their unit, except that a vapour
 * pressure beside a barometer in inHg is in inHg, and that no room is hotter than 50 degC. Two figures of air make a line of air, or one with its word.
 */
export function airSaid(text: string): AirSaid | null {
  const found: Partial<Record<Kind, number>> = {};
  let named = 0;
  let barometerUnit = '';
  for (const [, before = '', number, unit = ''] of text.toLowerCase().matchAll(FIGURE)) {
    const words = before.trim();
    const value = Number(number.replace(',', '.'));
    if (OTHERS.test(words) || !Number.isFinite(value)) continue;
    const kind = kindOf(words, unit);
    if (kind === null) continue;
    const plainUnit = unit.replace(/[\s.]/gu, '');
    const read = keptValue(kind, value, plainUnit, barometerUnit);
    if (read === null || found[kind] !== undefined) continue;
    if (kind === 'barometer') barometerUnit = plainUnit === '' ? (read.unit ?? '') : plainUnit;
    found[kind] = read.value;
    if (words !== '' || unit.length > 1) named += 1;
  }
  const count = Object.keys(found).length;
  return count >= 2 || (count === 1 && named === 1) ? found : null;
}

/** Whether a line has a word of the air and a figure. */
export function speaksOfAir(text: string): boolean {
  return (
    /\d/u.test(text) &&
    (leavesAir(text) ||
      /\b(baro\w*|atm\w*|weather|wx|humidity|hum|rh|vap\w*|dew|bulb|air temp\w*|ambient)\b/iu.test(text))
  );
}

/** Whether a line has a measure of the air that is none of those read. */
export function leavesAir(text: string): boolean {
  return /\b(wet|specific hum\w*|absolute hum\w*|grains?|density alt\w*|da)\b|g\/kg/iu.test(text);
}

function kindOf(words: string, unit: string): Kind | null {
  if (/\bdew/u.test(words)) return 'dewPoint';
  if (/\bvap/u.test(words)) return 'vapourPressure';
  if (/\b(rh|hum\w*)\b/u.test(words) || /%\s*[rh]/u.test(unit)) return 'humidity';
  if (unit === '%' && words === '') return 'humidity';
  if (/\bbaro/u.test(words) || /hg|bar|hpa|kpa|torr|psi/u.test(unit)) return 'barometer';
  return /[cfk]$/u.test(unit) || (unit === '' && /\b(air|temp\w*)$/u.test(words)) ? 'temperature' : null;
}

function keptValue(
  kind: Kind,
  value: number,
  unit: string,
  barometerUnit: string,
): { readonly value: number; readonly unit?: string } | null {
  if (kind === 'humidity') return unit.startsWith('%') || value > 1 ? { value: value / 100 } : null;
  if (kind === 'temperature' || kind === 'dewPoint') {
    const named = unit === '' && value >= FAHRENHEIT_FROM ? 'f' : unit;
    const scale = dynoUnit('temperature', named.replace(/^(?:°|deg)?/u, 'deg'));
    return named === '' || scale === null ? null : { value: value * scale.factor + scale.offset };
  }
  const implied =
    kind === 'vapourPressure'
      ? barometerUnit
      : (BAROMETERS.find(([, low, high]) => value >= low && value <= high)?.[0] ?? '');
  const name = unit === '' ? implied : unit.replace('"hg', 'inhg');
  const scale = name === '' ? null : dynoUnit('pressure', name);
  return scale === null ? null : { value: value * scale.factor, unit: name };
}
