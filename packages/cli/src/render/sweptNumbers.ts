/** Values of a swept field as numbers, where they are numbers of one unit. */

export interface SweptNumbers {
  /** In the order of the values. */
  readonly numbers: readonly number[];
  /** Empty where they have none. */
  readonly unit: string;
}

/** Null where one of them is no number, or they differ in their unit: they are no scale then. */
export function sweptNumbers(values: readonly (string | number)[]): SweptNumbers | null {
  const read = values.map(numberAndUnit);
  const numbers = read.flatMap((one) => (one === null ? [] : [one.number]));
  const units = new Set(read.map((one) => one?.unit));
  const [unit] = units;
  return numbers.length < values.length || unit === undefined || units.size > 1 ? null : { numbers, unit };
}

/** Of `1-8-4-3` or of `1/8 in` the first number is none. */
const NUMBER = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*([A-Za-z%"°].*)?$/su;

function numberAndUnit(value: string | number): { readonly number: number; readonly unit: string } | null {
  if (typeof value === 'number') return { number: value, unit: '' };
  const parts = NUMBER.exec(value);
  return parts === null ? null : { number: Number(parts[1]), unit: (parts[2] ?? '').trim() };
}
