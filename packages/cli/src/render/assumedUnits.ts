/** Assumed values in the units a reader asked for; the library lists them as the trade writes them. */
import type { Assumed } from '@valvetide/core';
import type { UnitSystem } from './units.ts';

/** Unit of the trade to SI: value times factor, after an offset. What is not named here is in use in both. */
const SI: Readonly<Record<string, readonly [unit: string, factor: number, offset: number]>> = {
  in: ['mm', 25.4, 0],
  in2: ['cm2', 6.4516, 0],
  inHg: ['kPa', 3.386389, 0],
  inH2O: ['kPa', 0.249089, 0],
  psi: ['kPa', 6.894757, 0],
  cfm: ['l/s', 0.4719474432, 0],
  'lb-ft2': ['kg m2', 0.0421401100938, 0],
  degF: ['degC', 1 / 1.8, -32],
};

export function assumedIn(items: readonly Assumed[], units: UnitSystem): readonly Assumed[] {
  return units === 'trade' ? items : items.map(inSi);
}

function inSi(item: Assumed): Assumed {
  const known = SI[item.unit];
  if (known === undefined || typeof item.value !== 'number') return item;
  const [unit, factor, offset] = known;
  return {
    ...item,
    unit,
    value: (item.value + offset) * factor,
    spread: item.spread === null ? null : item.spread * factor,
  };
}
