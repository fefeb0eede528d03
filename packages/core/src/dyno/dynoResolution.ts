/** What a dyno can tell apart. */
import { DomainError } from '../base/errors.ts';

/** Repeatability of the dyno that is to test, and how often it pulls. */
export interface Dyno {
  /** One standard deviation from pull to pull [%]. */
  readonly repeatabilityPct: number;
  /** Pulls averaged on each side of a comparison. */
  readonly pulls: number;
}

/** An engine dyno in disciplined hands repeats within 0.3 to 0.5 %; common practice, no source. Three pulls a side. */
export const DYNO: Dyno = { repeatabilityPct: 0.5, pulls: 3 };

/** More pulls a side than anyone makes: engine and weather drift before they are done. */
export const MOST_PULLS = 20;

/** Difference as large as two of its own standard deviations. */
const SURE = 2;

/**
 * Smallest difference between two means of `pulls` pulls that stands out of the scatter [%]: 2 sigma sqrt(2 / n).
 *
 * @example
 * ```ts
 * resolvablePct({ repeatabilityPct: 0.5, pulls: 3 }); // 0.8 % of power
 * ```
 */
export function resolvablePct({ repeatabilityPct, pulls }: Dyno): number {
  if (!(repeatabilityPct > 0 && repeatabilityPct <= 20))
    throw new DomainError('repeatabilityPct', repeatabilityPct, 'in (0, 20] %');
  if (!(Number.isInteger(pulls) && pulls >= 1 && pulls <= 100))
    throw new DomainError('pulls', pulls, 'a whole number from 1 to 100');
  return SURE * repeatabilityPct * Math.sqrt(2 / pulls);
}

/** Pulls a side after which a gain [%] stands out; null where {@link MOST_PULLS} would not do. */
export function pullsNeeded(gainPct: number, repeatabilityPct: number): number | null {
  const pulls = Math.ceil(2 * ((SURE * repeatabilityPct) / gainPct) ** 2 - 1e-9);
  return Number.isFinite(pulls) && pulls <= MOST_PULLS ? Math.max(1, pulls) : null;
}
