/** The one measurement that settles an answer best, as results have it. */
import type { SettledBy } from '../uncertainty/settledBy.ts';

/** What to measure before anything is bought or fitted. */
export interface MeasureFirst {
  /** Field of the file. */
  readonly path: string;
  /** What it is, where a path alone would not say. */
  readonly what: string;
  /** How it is found out; a pull only where nothing that can be measured stands out. */
  readonly by: SettledBy;
  /** `gain`: of the one change named. `order`: which of the changes named gains more. */
  readonly settles: 'gain' | 'order';
  /** Names of the changes. */
  readonly changes: readonly string[];
  /** One standard deviation of the gain, or of the difference of two gains, as it is [% of power]. */
  readonly sigmaPct: number;
  /** The same once that is known [% of power]. */
  readonly leftPct: number;
}
