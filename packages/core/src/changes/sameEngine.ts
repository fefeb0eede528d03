/** Whether two combinations are the same engine. */

import type { Combination } from '../combination/combination.ts';

/** Whether two combinations forecast alike, whatever they are called and however much of them was assumed. */
export function isSameEngine(a: Combination, b: Combination): boolean {
  const engine = ({
    name: _n,
    assumed: _a,
    warnings: _w,
    heardOn: _h,
    units: _u,
    ratedSpeed: _r,
    bench: _b,
    ...rest
  }: Combination): string => JSON.stringify(rest, plainly);
  return engine(a) === engine(b);
}

/** Digits that tell two sizes apart; 107.95 mm and 4.25 in differ in the sixteenth. */
const DIGITS = 12;

/** Neither the order of keys nor what is left of a conversion between units is a difference. */
function plainly(_key: string, value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toPrecision(DIGITS));
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
