/** Repeat pulls of one engine: their mean curve, and how well they repeat. */

import { DomainError } from '../base/errors.ts';
import { powerOf } from '../base/power.ts';
import { mean } from '../numerics/mean.ts';
import { standardDeviation } from '../numerics/standardDeviation.ts';
import type { Pull } from './readPull.ts';

/** One speed of a mean curve. */
export interface MeanPoint {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Torque [N m]. */
  readonly torqueNm: number;
  /** Power [kW]. */
  readonly powerKw: number;
  /** Pulls that reach this speed. */
  readonly pulls: number;
  /** Standard deviation from pull to pull over the mean [-]; null with one pull. */
  readonly deviation: number | null;
}

/** How well pulls repeat. */
export interface Repeatability {
  /** Standard deviation of one pull from the mean of all, pooled over the speeds [-]. */
  readonly deviation: number;
  /** Pulls and speeds it was found from. */
  readonly pulls: number;
  /** Speeds that it was worked out at. */
  readonly speeds: number;
}

/** Mean of one or more pulls. */
export interface PullMean {
  /** Means by speed, rising. */
  readonly points: readonly MeanPoint[];
  /** Null with one pull. */
  readonly repeatability: Repeatability | null;
  /** How many pulls were taken together. */
  readonly pulls: number;
  /** The pulls were taken at different speeds, so each was smoothed over so many rpm; zero where they were not. */
  readonly smoothedOver: number;
}

/** Speeds as near as this count as one [1/min]: a dyno holds speed no better. */
const SAME_SPEED = 15;
/** Steps of speed that pulls taken at different speeds are read at [1/min]. */
const STEPS = [100, 250, 500] as const;
/** About so many speeds are enough to show a curve. */
const ENOUGH = 30;

/**
 * Mean curve of repeat pulls.
 *
 * Pulls at the same speeds are averaged speed by speed. Others are read at common speeds by a local straight line through
 * the points around (weights falling to zero one step away), which also takes the scatter out of a logger's rows.
 *
 * @throws {@link DomainError} without pulls, or where pulls have no speed in common
 *
 * @example
 * ```ts
 * for (const { rpm, torqueNm } of pullMean(sheet.pulls).points) console.log(rpm, torqueNm);
 * ```
 */
export function pullMean(pulls: readonly Pull[]): PullMean {
  if (!(pulls.length > 0)) throw new DomainError('pulls', pulls.length, 'one pull or more');
  const { speeds, step } = sharedSpeeds(pulls) ?? commonGrid(pulls);
  const points = speeds.flatMap((rpm): MeanPoint[] => {
    const torques = pulls.flatMap((pull) => torqueNear(pull, rpm, step) ?? []);
    if (torques.length === 0) return [];
    const torque = mean(torques);
    const deviation = torques.length > 1 ? standardDeviation(torques) / torque : null;
    return [{ rpm, torqueNm: torque, powerKw: powerOf(torque, rpm), pulls: torques.length, deviation }];
  });
  return { points, repeatability: pooled(points, pulls.length), pulls: pulls.length, smoothedOver: step };
}

/** Root of the mean square of the deviations, each counted by its pulls less one. */
function pooled(points: readonly MeanPoint[], pulls: number): Repeatability | null {
  let squares = 0;
  let freedom = 0;
  let speeds = 0;
  for (const { deviation, pulls: n } of points) {
    if (deviation === null) continue;
    squares += (n - 1) * deviation * deviation;
    freedom += n - 1;
    speeds += 1;
  }
  return freedom > 0 ? { deviation: Math.sqrt(squares / freedom), pulls, speeds } : null;
}

/** Speeds to give the mean at, and the step pulls are smoothed over; zero where none needs it. */
interface Grid {
  readonly speeds: readonly number[];
  readonly step: number;
}

/** The speeds of the longest pull where every pull was taken at them; null where not. */
function sharedSpeeds(pulls: readonly Pull[]): Grid | null {
  const longest = pulls.reduce((a, b) => (b.points.length > a.points.length ? b : a));
  const speeds = longest.points.map((point) => point.rpm);
  const apart = Math.min(...speeds.slice(1).map((rpm, i) => rpm - speeds[i]));
  if (pulls.length > 1 && apart <= 2 * SAME_SPEED) return null;
  const all = pulls.every((pull) =>
    pull.points.every((point) => speeds.some((rpm) => Math.abs(rpm - point.rpm) <= SAME_SPEED)),
  );
  return all && speeds.length <= 2 * ENOUGH ? { speeds, step: 0 } : null;
}

/** Round speeds within all pulls. */
function commonGrid(pulls: readonly Pull[]): Grid {
  const from = Math.max(...pulls.map((pull) => pull.points[0].rpm));
  const to = Math.min(...pulls.map((pull) => pull.points[pull.points.length - 1].rpm));
  if (!(to > from)) throw new DomainError('pulls', `${from} to ${to}`, 'pulls with speeds in common');
  const own = Math.max(
    ...pulls.map(
      (pull) => (pull.points[pull.points.length - 1].rpm - pull.points[0].rpm) / (pull.points.length - 1),
    ),
  );
  const least = Math.max(own, (to - from) / ENOUGH);
  const step = STEPS.find((candidate) => candidate >= least) ?? STEPS[STEPS.length - 1];
  const speeds: number[] = [];
  for (let rpm = Math.ceil(from / step) * step; rpm <= to; rpm += step) speeds.push(rpm);
  return speeds.length > 0 ? { speeds, step } : { speeds: [(from + to) / 2], step };
}

/** The pull's torque at a speed it has (step zero), or smoothed over `step`; null beyond its ends. */
function torqueNear(pull: Pull, rpm: number, step: number): number | null {
  if (step === 0)
    return pull.points.find((point) => Math.abs(point.rpm - rpm) <= SAME_SPEED)?.torqueNm ?? null;
  return smoothTorque(pull.points, rpm, step);
}

/**
 * Torque at a speed by a straight line fitted to the points within `width`, weighted by 1 - |distance| / width
 * [N m]; widened until two points carry it. Null beyond the points' ends.
 */
export function smoothTorque(
  points: readonly { readonly rpm: number; readonly torqueNm: number }[],
  rpm: number,
  width: number,
): number | null {
  if (!(rpm >= points[0].rpm - SAME_SPEED && rpm <= points[points.length - 1].rpm + SAME_SPEED)) return null;
  for (let reach = width; reach <= 64 * width; reach *= 1.5) {
    let w = 0;
    let wx = 0;
    let wxx = 0;
    let wy = 0;
    let wxy = 0;
    let count = 0;
    for (const point of points) {
      const x = point.rpm - rpm;
      const weight = 1 - Math.abs(x) / reach;
      if (!(weight > 0)) continue;
      count += 1;
      w += weight;
      wx += weight * x;
      wxx += weight * x * x;
      wy += weight * point.torqueNm;
      wxy += weight * x * point.torqueNm;
    }
    const determinant = w * wxx - wx * wx;
    if (count >= 2 && determinant > 1e-9 * w * wxx) return (wxx * wy - wx * wxy) / determinant;
    if (count >= 1 && w > 0 && Math.abs(wx / w) < 1) return wy / w;
  }
  return null;
}
