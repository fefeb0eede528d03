/** A chance in percent: never 0 or 100, since no model is that sure. */
import { fixed } from './fixed.ts';

export function chance(value: number | null): string {
  if (value === null) return '?';
  if (value > 0.99) return '>99';
  return value < 0.01 ? '<1' : fixed(100 * value);
}
