/** Quantities of a random engine, which can be written in two sets of units. */

/** The units a file is written in. */
export type Units = 'metric' | 'inch';

/** A quantity in the metric unit of its kind. */
export interface Size {
  readonly kind: keyof typeof KINDS;
  readonly value: number;
}

/** Unit of each kind in both sets, and how the number of one becomes that of the other. */
const KINDS = {
  length: ['mm', 'in', (mm: number) => mm / 25.4],
  area: ['cm2', 'in2', (cm2: number) => cm2 / 6.4516],
  volume: ['cc', 'in3', (cc: number) => cc / 16.387064],
  flow: ['m3/min', 'cfm', (m3: number) => m3 / 0.028316846592],
  pressure: ['kPa', 'Pa', (kPa: number) => kPa * 1000],
  temperature: ['degC', 'K', (celsius: number) => celsius + 273.15],
  rise: ['K', 'K', (kelvin: number) => kelvin],
  angle: ['deg', 'deg', (degrees: number) => degrees],
  speed: ['rpm', 'rpm', (rpm: number) => rpm],
  share: ['%', '%', (percent: number) => percent],
} as const;

export function size(kind: Size['kind'], value: number): Size {
  return { kind, value };
}

export const mm = (value: number): Size => size('length', value);
export const cc = (value: number): Size => size('volume', value);
export const deg = (value: number): Size => size('angle', value);

/** A value of a file: sizes, words, numbers, and lists and sections of them. A section or field that is undefined is left out. */
export type Field = Size | string | number | boolean | undefined | readonly Field[] | Section;
export interface Section {
  readonly [name: string]: Field;
}

function isSize(value: object): value is Size {
  return 'kind' in value && 'value' in value && typeof value.value === 'number';
}

/** The value as the file has it, in the units of the set. */
export function written(field: Field, units: Units): unknown {
  if (typeof field !== 'object') return field;
  if (Array.isArray(field)) return field.map((inner: Field) => written(inner, units));
  if (!isSize(field))
    return Object.fromEntries(Object.entries(field).map(([name, inner]) => [name, written(inner, units)]));
  const [metric, inch, toInch] = KINDS[field.kind];
  return units === 'metric' ? `${field.value} ${metric}` : `${toInch(field.value)} ${inch}`;
}

/** Every section with its fields in the opposite order. */
export function turnedAround(section: Section): Section {
  return Object.fromEntries(
    Object.entries(section)
      .reverse()
      .map(([name, field]) => {
        const isSection = typeof field === 'object' && !Array.isArray(field) && !isSize(field);
        return [name, isSection ? turnedAround(field as Section) : field];
      }),
  );
}
