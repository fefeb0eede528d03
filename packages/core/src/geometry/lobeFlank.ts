/** The smoothest flank of a cam lobe through given points: one positive and one negative stretch of acceleration. */
import { DomainError } from '../base/errors.ts';
import { leastJerkHump } from './leastJerk.ts';

/** Piecewise cubic flank in distance from the seat; lift, slope and acceleration are continuous. */
export interface LobeFlank {
  /** Angle from seat to nose [crank deg]. */
  readonly length: number;
  /** At equally spaced nodes from seat to nose [m], [m/deg], [m/deg2]. */
  readonly lift: Float64Array;
  readonly slope: Float64Array;
  readonly acceleration: Float64Array;
}

/**
 * Intervals of the flank: about 2.5 deg each on a usual lobe, fine enough that doubling moves no lift by 2e-4. A card whose lines
 * stand closer than that gets more.
 */
const INTERVALS = [64, 128] as const;

/**
 * Flank that passes every point and has the least integral of squared jerk (third derivative of lift).
 *
 * The acceleration is a chain of straight lines, zero at the seat. It is positive from the seat to one inflection and
 * negative from there to the nose, so the lift has no bump; slope is zero at the seat and at the nose. Without the
 * sign rule this is the quintic spline of least jerk; usual cards obey the rule by themselves, others get a quadratic
 * programme by block pivoting for each inflection in turn.
 *
 * @param length - angle from seat to nose [crank deg]
 * @param from - distance of each point from the seat [crank deg], rising, inside the flank
 * @param lift - lift of each point [m], rising
 * @param maxLift - lift at the nose [m]
 * @throws {@link DomainError} when no single hump passes the points
 */
export function lobeFlank(
  length: number,
  from: readonly number[],
  lift: readonly number[],
  maxLift: number,
): LobeFlank {
  const wanted = [...lift.map((l) => l / maxLift), 1, 0];
  let best: Float64Array | null = null;
  if (riseThenFall(length, from, lift, maxLift)) {
    for (const n of INTERVALS) {
      best ??= leastJerkHump(
        [...from.map((s) => liftRow(s / length, n)), liftRow(1, n), slopeRow(n)],
        wanted,
      );
    }
  }
  if (best === null) {
    throw new DomainError(
      'points',
      from.map((s, i) => `${(2 * (length - s)).toFixed(1)} deg above ${lift[i]} m`).join(', '),
      'durations that one smooth hump can pass',
    );
  }
  return integrate(length, maxLift, best);
}

/** Lift at a distance from the seat [crank deg] on the flank [m]; for inner loops, no guards. */
export function flankLift(flank: LobeFlank, s: number): number {
  const last = flank.lift.length - 1;
  const step = flank.length / last;
  if (s <= 0) return 0;
  if (s >= flank.length) return flank.lift[last];
  const i = Math.min(last - 1, Math.floor(s / step));
  const t = s - i * step;
  const a = flank.acceleration[i];
  const jerk = (flank.acceleration[i + 1] - a) / step;
  return flank.lift[i] + t * (flank.slope[i] + t * (a / 2 + (t * jerk) / 6));
}

/** Whether the mean slopes between the points rise and then fall, without which no single hump passes them. */
function riseThenFall(
  length: number,
  from: readonly number[],
  lift: readonly number[],
  maxLift: number,
): boolean {
  const s = [0, ...from, length];
  const l = [0, ...lift, maxLift];
  const mean = s.slice(1).map((right, i) => (l[i + 1] - l[i]) / (right - s[i]));
  const peak = mean.indexOf(Math.max(...mean));
  return mean.every((value, i) => i === 0 || (i <= peak ? value > mean[i - 1] : value < mean[i - 1]));
}

/** Weights of the nodal accelerations (the seat's is zero and left out) in the lift at s, all of unit flank. */
function liftRow(s: number, n: number): Float64Array {
  const d = 1 / n;
  const cube = (x: number): number => (x > 0 ? x * x * x : 0);
  // Twice integrated hat functions.
  return Float64Array.from({ length: n }, (_, k) => {
    const t = (k + 1) * d;
    return (cube(s - t + d) - 2 * cube(s - t) + cube(s - t - d)) / (6 * d);
  });
}

/** Weights of the nodal accelerations in the slope at the nose. */
function slopeRow(n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, k) => (k === n - 1 ? 0.5 : 1) / n);
}

/** From nodal accelerations of the unit flank to lift, slope and acceleration in metres and degrees. */
function integrate(length: number, maxLift: number, a: Float64Array): LobeFlank {
  const n = a.length;
  const lift = new Float64Array(n + 1);
  const slope = new Float64Array(n + 1);
  const acceleration = new Float64Array(n + 1);
  const step = length / n;
  for (let i = 1; i <= n; i++) {
    acceleration[i] = (a[i - 1] * maxLift) / (length * length);
    const before = acceleration[i - 1];
    slope[i] = slope[i - 1] + ((before + acceleration[i]) / 2) * step;
    lift[i] = lift[i - 1] + slope[i - 1] * step + ((2 * before + acceleration[i]) * step * step) / 6;
  }
  return { length, lift, slope, acceleration };
}
