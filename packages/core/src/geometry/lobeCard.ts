/** What a cam card leaves out: low-lift duration, and how full the lobe is at 0.200 in. */
import { INCH } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import { cardFault } from './cardFault.ts';

/** One line of a cam card. */
export interface CardPoint {
  /** Crank degrees during which the lobe is above `lift`. */
  readonly duration: number;
  /** Lobe lift [m]. */
  readonly lift: number;
}

/** Rollers carry fuller lobes; a bucket or finger follower counts as flat. */
export type Follower = 'flat' | 'roller';

/** A card with the points that a lobe needs. */
export interface CompletedCard {
  /** Longest first. */
  readonly points: readonly CardPoint[];
  /** Those of them that are estimates. */
  readonly estimated: readonly CardPoint[];
}

/** Heights at which the points that a lobe needs are estimated [m]: near the seat, where cards compare lobes, and on the flank. */
const LOW_LIFT = 0.006 * INCH;
const STANDARD_LIFT = 0.05 * INCH;
const SHAPE_LIFT = 0.2 * INCH;
/** A card whose first line is above this says nothing of its ramp [m]. */
const HIGHEST_LOW_LINE = 0.03 * INCH;
/** Lines from here [m] to this share of the lobe [-] say how full it is. */
const SHAPE_FROM = 0.12 * INCH;
const SHAPE_TO = 0.85;
/** Lowest lobe for which fullness is estimated [m]: on a lower one the estimate would stand on the nose and say nothing. */
const LEAST_LOBE = 0.25 * INCH;
/** Length of the raised cosine beyond the duration at 0.050 in [crank deg]. */
const COSINE_SKIRT = 46;

/**
 * Duration at a low lift over the one at 0.050 in lifter rise [crank deg], by lift [m].
 *
 * Middle of the trade's ranges at 0.006 in (hydraulic flat 52 to 66, hydraulic roller 50 to 56) and 0.020 in (solid flat
 * 32 to 38, solid roller 28 to 34); straight between. Common practice, no source.
 */
const RAMP: Readonly<Record<Follower, readonly (readonly [lift: number, extra: number])[]>> = {
  flat: [
    [LOW_LIFT, 59],
    [0.02 * INCH, 35],
    [STANDARD_LIFT, 0],
  ],
  roller: [
    [LOW_LIFT, 53],
    [0.02 * INCH, 31],
    [STANDARD_LIFT, 0],
  ],
};

/** Roller over flat in (duration at 0.050 less duration at 0.200): 72 over 85, the middles of the trade's ranges. */
const ROLLER_FULLNESS = 0.85;

/**
 * Adds the points a card lacks: one at 0.006 in where nothing below 0.030 in is given, one at 0.200 in where nothing
 * tells how full the lobe is.
 *
 * A lobe drawn through 0.050 in alone can be 10 % too fat at 0.200 in. The estimate at 0.200 in comes from a raised cosine
 * ((1 + cos(pi x))/2)^k of half-length (duration at 0.050 + 46)/2, which gives a duration 76 to 92 deg below that
 * at 0.050 in on lobes of 0.32 to 0.45 in (flat tappets: 78 to 92, common practice, no source); 0.85 of the difference for
 * rollers (66 to 78). Spread about 5 deg.
 *
 * @param points - lines of the card, longest first
 * @param maxLift - lobe lift at the nose [m]
 * @throws {@link DomainError} naming the line that is out of order
 */
export function completeCard(
  points: readonly CardPoint[],
  maxLift: number,
  follower: Follower,
): CompletedCard {
  checkCard(points, maxLift);
  const estimated: CardPoint[] = [];
  const atStandard = standardDuration(points, maxLift, follower);
  if (points[0].lift > HIGHEST_LOW_LINE) {
    estimated.push({ duration: atStandard + rampExtra(LOW_LIFT, follower), lift: LOW_LIFT });
  }
  const saysFullness = points.some(({ lift }) => lift > SHAPE_FROM && lift < SHAPE_TO * maxLift);
  if (!saysFullness && maxLift > LEAST_LOBE) {
    const difference = atStandard - cosineDuration(atStandard, maxLift, SHAPE_LIFT);
    const duration = atStandard - difference * (follower === 'roller' ? ROLLER_FULLNESS : 1);
    estimated.push({ duration, lift: SHAPE_LIFT });
  }
  const kept = estimated.flatMap((point) => bent(point, points, maxLift) ?? []);
  const all = [...points, ...kept].sort((a, b) => a.lift - b.lift);
  return { points: all, estimated: kept };
}

/** Shortest estimate of a duration at 0.050 in [crank deg]; a line that gives less is none of a cam's. */
const SHORTEST = 10;

/** Duration [crank deg] at 0.050 in lifter rise: read from the card, or estimated from its nearest line. */
export function standardDuration(points: readonly CardPoint[], maxLift: number, follower: Follower): number {
  const nearest = points.reduce((best, point) =>
    Math.abs(point.lift - STANDARD_LIFT) < Math.abs(best.lift - STANDARD_LIFT) ? point : best,
  );
  if (nearest.lift <= STANDARD_LIFT || maxLift <= STANDARD_LIFT) {
    return Math.max(SHORTEST, nearest.duration - rampExtra(nearest.lift, follower));
  }
  // Longer lobes are longer at every lift: bisect for the cosine that passes the line.
  let low = SHORTEST;
  let high = 600;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (cosineDuration(middle, maxLift, nearest.lift) < nearest.duration) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Duration at a lift of the raised cosine with the given duration at 0.050 in [crank deg]. */
function cosineDuration(atStandard: number, maxLift: number, lift: number): number {
  const half = (atStandard + COSINE_SKIRT) / 2;
  const base = (1 + Math.cos((Math.PI * atStandard) / 2 / half)) / 2;
  const power = Math.log(STANDARD_LIFT / maxLift) / Math.log(base);
  return ((2 * half) / Math.PI) * Math.acos(2 * (lift / maxLift) ** (1 / power) - 1);
}

function rampExtra(lift: number, follower: Follower): number {
  const table = RAMP[follower];
  const upper = Math.max(
    1,
    table.findIndex(([at]) => lift <= at),
  );
  const [x0, y0] = table[upper - 1];
  const [x1, y1] = table[upper];
  return y0 + ((lift - x0) / (x1 - x0)) * (y1 - y0);
}

/** The estimate, longer where the lines of the card would have it so; null where it contradicts them. */
function bent(estimate: CardPoint, points: readonly CardPoint[], maxLift: number): CardPoint | null {
  const { lift } = estimate;
  const isHump = (duration: number): boolean =>
    fits({ duration, lift }, points) &&
    cardFault(
      [...points, { duration, lift }].sort((a, b) => a.lift - b.lift),
      maxLift,
    ) === null;
  if (isHump(estimate.duration)) return estimate;
  const longest = points.filter((point) => point.lift < lift).at(-1)?.duration ?? estimate.duration;
  // A fuller lobe at this lift: steps of a degree, as the estimate is no better known.
  for (let duration = Math.ceil(estimate.duration); duration < longest; duration += 1) {
    if (isHump(duration)) return { duration, lift };
  }
  return null;
}

/** Whether an estimate is in order with the lines of the card. */
function fits(estimate: CardPoint, points: readonly CardPoint[]): boolean {
  if (!(estimate.duration > 4 && estimate.duration < 700)) return false;
  return points.every((point) => (point.lift - estimate.lift) * (point.duration - estimate.duration) < 0);
}

function checkCard(points: readonly CardPoint[], maxLift: number): void {
  if (!(maxLift > 0)) throw new DomainError('maxLift', maxLift, 'positive m');
  if (!(points.length > 0)) throw new DomainError('points', points.length, 'at least one line of the card');
  points.forEach(({ duration, lift }, i) => {
    const before = i > 0 ? points[i - 1] : { duration: 720, lift: -1e-12 };
    if (!(duration > 0 && duration < before.duration)) {
      throw new DomainError(
        `points[${i}].duration`,
        duration,
        `between 0 and ${before.duration} deg, longest first`,
      );
    }
    if (!(lift > before.lift && lift < maxLift)) {
      throw new DomainError(
        `points[${i}].lift`,
        lift,
        `between ${before.lift} and the lobe lift, ${maxLift} m`,
      );
    }
  });
}
