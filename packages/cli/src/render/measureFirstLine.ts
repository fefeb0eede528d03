/** Which one measurement would settle an answer best, in a sentence. */
import type { MeasureFirst } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { plain } from './plain.ts';

/** Empty where nothing stands out. */
export function measureFirstLine(first: MeasureFirst | null): string {
  if (first === null) return '';
  const { path, what, by, settles, changes, sigmaPct, leftPct } = first;
  const named = changes.map(plain);
  const left = `+/- ${fixed(leftPct, 2)} % in place of ${fixed(sigmaPct, 2)} %`;
  const place = what === path ? plain(path) : `${plain(what)} (${plain(path)})`;
  const lead =
    by === 'measuring' ? `Measure this first: ${place}` : `Calibrating on a pull settles the most: ${place}`;
  if (settles === 'gain') return `${lead}. The gain of ${named.join('')} is then known to ${left}.`;
  const [leader, ...others] = named;
  return `${lead}. How ${leader} stands against ${others.join(', ')} is then known to ${left}.`;
}
