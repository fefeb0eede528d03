/** Arithmetic on values as they stand in a file: numbers, ratios such as `10.5:1`, and quantities with their unit. */
import { type Dimension, parseQuantity, splitNumber, toUnit } from './units.ts';

/** A new value as it would stand in a file, or why there is none. */
export type ArithmeticResult =
  | { readonly ok: true; readonly value: number | string }
  | { readonly ok: false; readonly message: string };

/** Digits kept, so that 1.7 + 0.1 is 1.8. */
const DIGITS = 12;

const RATIO = /^\s*(\d+(?:\.\d+)?)\s*:\s*1\s*$/u;

/**
 * Dimensions that a sum may have. To a temperature only a difference can be added, so absolute temperatures are not among them;
 * differences come last, since a plain `K` is one too.
 */
const DIMENSIONS: readonly Dimension[] = [
  'length',
  'area',
  'volume',
  'pressure',
  'flow',
  'angle',
  'speed',
  'piston-speed',
  'share',
  'specific-energy',
  'temperature-difference',
];

/** `value` times `factor`, in the unit of `value`. */
export function scaled(value: unknown, factor: number): ArithmeticResult {
  const number = plainNumber(value);
  if (number !== null) return { ok: true, value: rounded(number * factor) };
  const parts = typeof value === 'string' ? splitNumber(value.trim()) : null;
  if (parts === null || parts.unit === '') return notANumber(value);
  if (parseQuantity(`0 ${parts.unit}`, 'temperature').ok && !isKelvin(parts.unit)) {
    return { ok: false, message: `can't be scaled: '${value}' counts from no true zero; add to it instead` };
  }
  return { ok: true, value: `${rounded(parts.number * factor)} ${parts.unit}` };
}

/** `value` plus `amount`, in the unit of `value`; a temperature takes a difference. */
export function sum(value: unknown, amount: unknown): ArithmeticResult {
  const number = plainNumber(value);
  if (number !== null) {
    const more = plainNumber(amount);
    if (more === null)
      return { ok: false, message: `is the plain number ${number}: add a plain number, not '${amount}'` };
    return { ok: true, value: rounded(number + more) };
  }
  const parts = typeof value === 'string' ? splitNumber(value.trim()) : null;
  if (parts === null || parts.unit === '') return notANumber(value);
  if (typeof amount !== 'string')
    return { ok: false, message: `is '${value}': add an amount with its unit, not ${amount}` };
  for (const dimension of DIMENSIONS) {
    if (!parseQuantity(`1 ${parts.unit}`, dimension).ok) continue;
    const more = parseQuantity(amount, dimension);
    if (more.ok) {
      const added = parts.number + toUnit(more.value.kept, parts.unit, dimension);
      return { ok: true, value: `${rounded(added)} ${parts.unit}` };
    }
  }
  return { ok: false, message: `is '${value}', to which '${amount}' can't be added` };
}

/** Values by speed: `3000 rpm` and its value. */
type Values = Readonly<Record<string, number | string>>;

/** The same of a value, or of each of some by speed. */
export type EachResult =
  | { readonly ok: true; readonly value: number | string | Values }
  | { readonly ok: false; readonly message: string };

/** As {@link scaled}; of values by speed, each. */
export function eachScaled(value: unknown, factor: number): EachResult {
  return isBySpeed(value) ? each(value, (one) => scaled(one, factor)) : scaled(value, factor);
}

/** As {@link sum}; of values by speed, each. */
export function eachSum(value: unknown, amount: unknown): EachResult {
  return isBySpeed(value) ? each(value, (one) => sum(one, amount)) : sum(value, amount);
}

/** Whether something holds values by speed: every name a speed with its unit. */
export function isBySpeed(value: unknown): value is Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const names = Object.keys(value);
  return names.length > 0 && names.every((name) => parseQuantity(name, 'speed').ok);
}

function each(table: Readonly<Record<string, unknown>>, act: (one: unknown) => ArithmeticResult): EachResult {
  const values: Record<string, number | string> = {};
  for (const [name, one] of Object.entries(table)) {
    const result = act(one);
    if (!result.ok) return result;
    values[name] = result.value;
  }
  return { ok: true, value: values };
}

function plainNumber(value: unknown): number | null {
  if (typeof value === 'number') return value;
  const ratio = typeof value === 'string' ? RATIO.exec(value) : null;
  return ratio === null ? null : Number(ratio[1]);
}

function isKelvin(unit: string): boolean {
  const zero = parseQuantity(`0 ${unit}`, 'temperature');
  return zero.ok && zero.value.kept === 0;
}

function notANumber(value: unknown): ArithmeticResult {
  const shown =
    typeof value === 'string'
      ? `'${value}'`
      : Array.isArray(value)
        ? 'a list'
        : typeof value === 'object' && value !== null
          ? 'fields'
          : String(value);
  return { ok: false, message: `is no number to start from: ${shown}` };
}

function rounded(value: number): number {
  return Number(value.toPrecision(DIGITS));
}
