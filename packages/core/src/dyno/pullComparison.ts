/** Measured against measured: what a part did, and whether so few pulls can tell. */
import { DomainError } from '../base/errors.ts';
import { type BandWeighting, bandMean, type SpeedBand } from '../forecast/band.ts';
import { mean } from '../numerics/mean.ts';
import { DYNO } from './dynoResolution.ts';
import type { DynoSheet } from './dynoSheet.ts';
import { type MeanPoint, type PullMean, pullMean, smoothTorque } from './pullMean.ts';
import type { PullOptions } from './pullSummary.ts';

/** Two sets of pulls at one speed. */
export interface DifferencePoint {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Mean torque before [N m]. */
  readonly beforeNm: number;
  /** Mean torque after [N m]. */
  readonly afterNm: number;
  /** After over before less one [-]. */
  readonly gain: number;
}

/** Two sets of pulls, before and after. Both under one standard. */
export interface PullComparison {
  /** Name of the sheet before. */
  readonly before: string;
  /** Name of the sheet after. */
  readonly after: string;
  /** Speeds that count. */
  readonly band: SpeedBand;
  /** What counts equally in a mean; default `speed`. */
  readonly weighting: BandWeighting;
  /** At the speeds that both sheets have, rising. */
  readonly points: readonly DifferencePoint[];
  /** Means over the band. */
  readonly torqueNm: { readonly before: number; readonly after: number; readonly gain: number };
  /** Mean power over the band [kW], and after over before less one [-]. */
  readonly powerKw: { readonly before: number; readonly after: number; readonly gain: number };
  /** Standard deviation of one pull, pooled over both sets [-]. */
  readonly repeatability: number;
  /** Neither set repeats a pull: the usual repeatability of an engine dyno stands in. */
  readonly repeatabilityAssumed: boolean;
  /** How many pulls each side has. */
  readonly pulls: { readonly before: number; readonly after: number };
  /**
   * How much the speed of each side rose in a second, in the mean of its pulls [1/min/s]; 0: speeds were held, or the figures were brought to
   * that; null where some pull doesn't say.
   */
  readonly rates: { readonly before: number | null; readonly after: number | null };
  /** Least difference that stands out of the scatter [-]. */
  readonly resolvable: number;
  /** The gain over the band is larger than what the pulls resolve. */
  readonly resolved: boolean;
}

/**
 * Compares two sheets over the speeds they share. The least difference the pulls resolve is two standard deviations of
 * the difference of two means, 2 sigma sqrt(1 / n1 + 1 / n2), sigma pooled over both sets.
 *
 * @throws {@link DomainError} where the standards differ or no speed of the band is shared
 *
 * @example
 * ```ts
 * const { powerKw, resolved } = comparePulls(sheet, sheet, { band: { fromRpm: 4000, toRpm: 6000 } });
 * ```
 */
export function comparePulls(before: DynoSheet, after: DynoSheet, options: PullOptions = {}): PullComparison {
  if (before.standard !== after.standard) {
    throw new DomainError('standard', after.standard, `the same for both sheets, ${before.standard}`);
  }
  const first = pullMean(before.pulls);
  const second = pullMean(after.pulls);
  const points = shared(first, second);
  if (points.length === 0)
    throw new DomainError('sheets', after.name, `a sheet with speeds in common with ${before.name}`);
  const band = options.band ?? { fromRpm: points[0].rpm, toRpm: points[points.length - 1].rpm };
  const weighting = options.weighting ?? 'speed';
  const side = (of: 'beforeNm' | 'afterNm') =>
    bandMean(
      points.map((point) => ({ rpm: point.rpm, torqueNm: point[of] })),
      band,
      weighting,
    );
  const a = side('beforeNm');
  const b = side('afterNm');
  const { deviation, assumed } = pooledRepeatability([first, second]);
  const resolvable = leastDifference(deviation, first.pulls, second.pulls);
  const gain = b.powerKw / a.powerKw - 1;
  return {
    before: before.name,
    after: after.name,
    band,
    weighting,
    points,
    torqueNm: { before: a.torqueNm, after: b.torqueNm, gain: b.torqueNm / a.torqueNm - 1 },
    powerKw: { before: a.powerKw, after: b.powerKw, gain },
    repeatability: deviation,
    repeatabilityAssumed: assumed,
    pulls: { before: first.pulls, after: second.pulls },
    rates: { before: meanRate(before), after: meanRate(after) },
    resolvable,
    resolved: Math.abs(gain) > resolvable,
  };
}

function meanRate({ pulls }: DynoSheet): number | null {
  const said = pulls.flatMap(({ rate }) => rate ?? []);
  return said.length < pulls.length ? null : mean(said);
}

/** Least difference of two means that stands out of the scatter, unit of `deviation`: 2 sigma sqrt(1 / n1 + 1 / n2). */
export function leastDifference(deviation: number, before: number, after: number): number {
  return 2 * deviation * Math.sqrt(1 / before + 1 / after);
}

/** Standard deviation of one pull over several sets [-]; the usual one of an engine dyno where no set repeats a pull. */
export function pooledRepeatability(sets: readonly PullMean[]): { deviation: number; assumed: boolean } {
  let squares = 0;
  let freedom = 0;
  for (const { repeatability } of sets) {
    if (repeatability === null) continue;
    const weight = repeatability.speeds * (repeatability.pulls - 1);
    squares += weight * repeatability.deviation ** 2;
    freedom += weight;
  }
  return freedom > 0
    ? { deviation: Math.sqrt(squares / freedom), assumed: false }
    : { deviation: DYNO.repeatabilityPct / 100, assumed: true };
}

/** The speeds of the first set within the second, which is read there by a local straight line. */
function shared(first: PullMean, second: PullMean): DifferencePoint[] {
  const width = Math.max(stepOf(first.points), stepOf(second.points));
  return first.points.flatMap(({ rpm, torqueNm }) => {
    const same = second.points.find((point) => Math.abs(point.rpm - rpm) < 1);
    const after = same?.torqueNm ?? smoothTorque(second.points, rpm, width);
    return after === null ? [] : [{ rpm, beforeNm: torqueNm, afterNm: after, gain: after / torqueNm - 1 }];
  });
}

function stepOf(points: readonly MeanPoint[]): number {
  return points.length < 2 ? 100 : (points[points.length - 1].rpm - points[0].rpm) / (points.length - 1);
}
