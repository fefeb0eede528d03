/** Means of a curve over the band of speeds that a builder cares about. */

import { DomainError } from '../base/errors.ts';
import { powerOf } from '../base/power.ts';
import { linearTable } from '../numerics/interpolate.ts';
import type { MarchedPoint } from './curve.ts';

/** Speeds from and to, both included [1/min]. */
export interface SpeedBand {
  /** First speed, included [1/min]. */
  readonly fromRpm: number;
  /** Last speed, included [1/min]. */
  readonly toRpm: number;
}

/**
 * `speed`: every speed has the same weight. `time`: by the time an engine that accelerates a constant inertia through the band
 * spends at each speed, dt ~ dn / torque.
 */
export type BandWeighting = 'speed' | 'time';

/** Means over a band. */
export interface BandMean {
  /** Mean torque [N m]. */
  readonly torqueNm: number;
  /** Mean power [kW]. */
  readonly powerKw: number;
}

/**
 * Least torque over the band's largest that counts as torque in a mean by time [-]. An engine never gets through speeds at which it
 * makes none; with this bound they count a hundred times, the mean stays within the curve, and every curve has one.
 */
const LEAST_SHARE = 0.01;

/**
 * Mean torque and power over a band, by the trapezoidal rule between the curve's speeds; the curve is straight between
 * them, and the band is cut to the speeds it has. One speed in the band: the values there.
 *
 * @throws {@link DomainError} where no speed of the curve lies in the band
 *
 * @example
 * ```ts
 * const { powerKw } = bandMean(marchedPoints(curve), { fromRpm: 4000, toRpm: 6000 });
 * ```
 */
export function bandMean(
  points: readonly Pick<MarchedPoint, 'rpm' | 'torqueNm'>[],
  band: SpeedBand,
  weighting: BandWeighting = 'speed',
): BandMean {
  const speeds = bandSpeeds(points, band);
  const curve =
    points.length > 1
      ? linearTable(
          points.map((p) => p.rpm),
          points.map((p) => p.torqueNm),
        )
      : null;
  const torque = (n: number): number => curve?.valueAt(n) ?? points[0].torqueNm;
  const power = (n: number): number => powerOf(torque(n), n);
  const largest = Math.max(...speeds.map((n) => Math.abs(torque(n))));
  const least = LEAST_SHARE * largest;
  const weight = (n: number): number =>
    weighting === 'time' && largest > 0 ? 1 / Math.max(torque(n), least) : 1;
  if (speeds.length === 1) return { torqueNm: torque(speeds[0]), powerKw: power(speeds[0]) };
  const integral = (f: (n: number) => number): number => {
    let sum = 0;
    for (let i = 1; i < speeds.length; i++)
      sum += ((f(speeds[i - 1]) + f(speeds[i])) / 2) * (speeds[i] - speeds[i - 1]);
    return sum;
  };
  const whole = integral(weight);
  return {
    torqueNm: integral((n) => torque(n) * weight(n)) / whole,
    powerKw: integral((n) => power(n) * weight(n)) / whole,
  };
}

/** The curve's speeds within the band, with the band's ends where the curve reaches them. */
function bandSpeeds(points: readonly { readonly rpm: number }[], band: SpeedBand): readonly number[] {
  const { fromRpm, toRpm } = band;
  const from = Math.max(fromRpm, points[0]?.rpm ?? Number.POSITIVE_INFINITY);
  const to = Math.min(toRpm, points[points.length - 1]?.rpm ?? Number.NEGATIVE_INFINITY);
  if (!(from <= to)) throw new DomainError('band', fromRpm, 'a band that the curve reaches into');
  if (from === to) return [from];
  return [from, ...points.map((p) => p.rpm).filter((n) => n > from && n < to), to];
}
