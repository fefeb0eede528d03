/** A difference with its sign, `+1.4`; nothing has none. */
import { fixed } from './fixed.ts';

export function signed(value: number, decimals = 0): string {
  const text = fixed(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}
