/** Fuel by compression ratio, where the file names none. */
import type { WordEstimate } from '../../combination/ledger.ts';

/**
 * Highest compression ratio each fuel is usual at [-]; iron and aluminium heads together, common practice, no source. About
 * four octane numbers a point (common practice, no source).
 */
export const FUEL_BY_COMPRESSION: readonly (readonly [upTo: number, fuel: string])[] = [
  [9, 'pump-87'],
  [10.8, 'pump-93'],
  [12, 'race-100'],
  [14, 'race-110'],
  [Number.POSITIVE_INFINITY, 'race-116'],
];

export function fuelName(compression: number): WordEstimate<string> {
  const [, value] = FUEL_BY_COMPRESSION.find(([upTo]) => compression <= upTo) ?? FUEL_BY_COMPRESSION[0];
  return { value, reason: 'usual at this compression ratio; common practice, no source' };
}
