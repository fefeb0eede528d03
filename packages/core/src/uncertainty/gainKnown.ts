/** What is known of the gain of a change after some of its responses, and whether that is enough. */

import type { Change } from '../changes/change.ts';
import { rootMeanSquare } from '../numerics/rootMeanSquare.ts';
import type { ResponseWorld } from './askedForecasts.ts';
import type { Reach } from './heldWithin.ts';
import { readings } from './readings.ts';
import { remainderOf } from './responseSurface.ts';
import { baselineSubject, candidateSubject, forecastName, type Vectors } from './subjects.ts';
import { type VarianceShare, varianceShares } from './varianceShares.ts';

/** A candidate is open where so few draws leave this share of its stated standard deviation open, and what is left together is this much of the gain [-]. */
const LOOSE = 0.06;
const LARGE_SIGMA = 0.001;

/** Variance that the model's own error gives the gain of a candidate, however much is looked at [-]. */
function ownVarianceOf({ queue, ownVariance }: ResponseWorld, change: Change): number {
  const [before, after] = [null, change].map((it) => queue.curve(forecastName(it, ''))?.points ?? []);
  return ownVariance(rootMeanSquare(after.map(({ powerKw }, i) => powerKw / before[i].powerKw - 1)));
}

/** What is known of the gain of a change so far. */
export interface GainKnown {
  /** Of what was looked at singly, largest first. */
  readonly shares: readonly VarianceShare[];
  /** Standard deviation of what is left together, and variance of the gain with it and with the model's own error [-]. */
  readonly left: number;
  readonly whole: number;
  /** How many draws say what is left. */
  readonly draws: number;
}

/** Null where baseline or candidate was not run. */
export function gainKnown(
  world: ResponseWorld,
  change: Change,
  reach: ReadonlyMap<string, Reach>,
  vectors: Vectors,
): GainKnown | null {
  const read = readings(world, reach);
  const baseline = baselineSubject(read);
  const candidate = candidateSubject(read, baseline, change, vectors);
  if (baseline === null || candidate === null) return null;
  const { unknowns: shares } = varianceShares(baseline, candidate);
  const left = remainderOf(candidate);
  const seen = shares.reduce((sum, { sigma }) => sum + (sigma / 100) ** 2, 0);
  const draws = vectors.filter((_, v) => read.power(forecastName(change, `vector ${v}`)) !== null).length;
  return { shares, left, draws, whole: seen + left ** 2 + ownVarianceOf(world, change) };
}

/**
 * Whether the draws know the standard deviation of the gain closely enough, or what is left is little anyway. The mean square of n normal
 * deviates is off by (2 / n)^0.5 of itself, one standard deviation; a root by half as much.
 */
export function isSettled(known: GainKnown | null): boolean {
  if (known === null || known.draws === 0 || known.left < LARGE_SIGMA) return true;
  return (known.left ** 2 / known.whole / 2) * Math.sqrt(2 / known.draws) < LOOSE;
}
