/** What the parts of a ranking share. */

import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import type { Dyno } from '../dyno/dynoResolution.ts';
import type { SpeedBand } from '../forecast/band.ts';
import type { ForecastQueue } from '../studies/forecastQueue.ts';
import type { AppliedChange } from '../uncertainty/appliedChange.ts';
import type { Responses } from '../uncertainty/responses.ts';
import type { SpeedSpreads } from '../uncertainty/speedSpread.ts';
import type { Unknowns } from '../uncertainty/unknowns.ts';

/** Speeds [1/min]. */
export interface RankSpeeds {
  readonly band: SpeedBand;
  /** That gains are read at. */
  readonly gains: readonly number[];
  /** That responses to unknowns, and interactions, are read at. */
  readonly responses: readonly number[];
}

/** The pairs of changes. */
export interface PairPlan {
  readonly pairs: readonly { readonly a: string; readonly b: string; readonly combination: Combination }[];
  readonly warnings: readonly Warning[];
}

/** A ranking with its forecasts run. */
export interface RankStudy {
  readonly baseline: Baseline;
  readonly changes: readonly Change[];
  /** The same, applied to the baseline one by one. */
  readonly applied: readonly AppliedChange[];
  readonly dyno: Dyno;
  readonly seed: number;
  readonly speeds: RankSpeeds;
  readonly queue: ForecastQueue;
  readonly responses: Responses;
  readonly spreads: SpeedSpreads;
  readonly unknowns: Unknowns;
  readonly pairing: PairPlan;
  /** Queues a combination at the speeds of the gains. */
  readonly ask: (name: string, combination: Combination) => void;
}

/** Name of the baseline's forecast at the speeds of the gains. */
export const BASELINE = 'the baseline';

/** Name of a change's forecast at the speeds of the gains. */
export function changeKey(name: string): string {
  return `change: ${name}`;
}

/** Name of a pair's forecast, whichever comes first. */
export function pairKey(a: string, b: string): string {
  return `pair: ${[a, b].sort().join('\n')}`;
}
