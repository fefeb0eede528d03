/** What is not known of the best gain of a comparison. */
import type { MeasureFirst } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { measureFirstLine } from './measureFirstLine.ts';
import { plain } from './plain.ts';

/** Of the change that gains most of those that are allowed. */
export interface BestGain {
  /** Its name. */
  readonly change: string;
  /** One standard deviation of its gain in mean power over the band [%]. */
  readonly sigmaPct: number;
  /** What would make it surest; null where nothing stands out. */
  readonly measureFirst: MeasureFirst | null;
}

/** Empty where it was not worked out. */
export function bestGainLine(gain: BestGain | null): string {
  if (gain === null) return '';
  const sure = `The gain of ${plain(gain.change)} is known to +/- ${fixed(gain.sigmaPct, 1)} % (one standard deviation).`;
  return `${sure} ${measureFirstLine(gain.measureFirst)}`.trimEnd();
}
