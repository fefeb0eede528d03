/** Which one measurement would settle an answer best, in a sentence. */
import type { MeasureFirst } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { plain } from './plain.ts';

/** Empty where nothing stands out. */
export function measureFirstLine(first: MeasureFirst | null): string {
  if (first === null) return '';
  const { path, what, settles, changes, sigmaPct, leftPct } = first;
  const named = changes.map(plain);
  const left = `+/- ${fixed(leftPct, 2)} % in place of ${fixed(sigmaPct, 2)} %`;
  const place = what === path ? plain(path) : `${plain(what)} (${plain(path)})`;
  if (settles === 'gain')
    return `Measure this first: ${place}. The gain of ${named.join('')} is then known to ${left}.`;
  const [leader, ...others] = named;
  return `Measure this first: ${place}. How ${leader} stands against ${others.join(', ')} is then known to ${left}.`;
}
