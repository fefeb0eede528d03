/** Shape of a cam lobe: from a card's few points, or from a measured table. */
import { DomainError } from '../base/errors.ts';
import { type Interpolant, monotoneCubic } from '../numerics/interpolate.ts';
import { RAMP_OVER_STRAIGHT } from './cardFault.ts';
import { type CardPoint, completeCard, type Follower } from './lobeCard.ts';
import { flankLift, lobeFlank } from './lobeFlank.ts';

/** What is known of a lobe: a card, or a table of angle from the centre of the lobe [crank deg] and lift [m]. */
export type LobeSpec =
  | { readonly kind: 'card'; readonly points: readonly CardPoint[]; readonly maxLift: number }
  | { readonly kind: 'table'; readonly angle: readonly number[]; readonly lift: readonly number[] };

/** A prepared lobe. Angles are crank degrees from its centre, negative on the opening side. */
export interface LobeShape {
  /** [m] */
  readonly maxLift: number;
  /** Angle from the seat to the centre on the opening side [crank deg], positive. */
  readonly openingHalf: number;
  /** Angle from the centre to the seat on the closing side [crank deg]. */
  readonly closingHalf: number;
  /** Points of the card that had to be estimated; empty for a table. */
  readonly estimated: readonly CardPoint[];
  /** Lobe lift [m] at an angle from the centre [crank deg]; zero outside. */
  liftAt(angle: number): number;
}

/**
 * Power of the lift with distance from the seat, below the first point of a card [-].
 *
 * 2 would be a step of acceleration at the seat, 3 an acceleration rising from zero; the seat of a real ramp is not on
 * the card, and flow below the first point is negligible.
 */
const RAMP_POWER = 2.5;

/**
 * Prepares a lobe.
 *
 * A card becomes a symmetrical lobe that passes every line of the card, with continuous acceleration, one inflection on
 * each flank, no slope at seat and nose. A table is followed by a monotone cubic through every entry; a table that
 * starts at the centre (angle 0) is mirrored, and a table that stops above the seat runs out along a parabola.
 *
 * @param follower - decides the estimates for what a card leaves out
 */
export function buildLobe(spec: LobeSpec, follower: Follower = 'flat'): LobeShape {
  return spec.kind === 'card'
    ? fromCard(spec.points, spec.maxLift, follower)
    : fromTable(spec.angle, spec.lift);
}

/**
 * Angle from the centre at which the lobe passes a lift [crank deg], positive on the closing side and negative on the
 * opening side; null when the lobe never rises that far.
 */
export function lobeAngleAt(shape: LobeShape, lift: number, side: 'opening' | 'closing'): number | null {
  if (!(lift >= 0)) throw new DomainError('lift', lift, 'zero or positive m');
  const sign = side === 'closing' ? 1 : -1;
  const reach = side === 'closing' ? shape.closingHalf : shape.openingHalf;
  if (lift === 0) return sign * reach;
  if (lift >= shape.maxLift) return lift === shape.maxLift ? 0 : null;
  let below = reach;
  let above = 0;
  // A table's highest entry need not stand at its zero.
  if (shape.liftAt(0) < lift) {
    while (above < reach && shape.liftAt(sign * above) < lift) above += reach / 1000;
    if (above >= reach) return null;
  }
  for (let i = 0; i < 60; i++) {
    const middle = (below + above) / 2;
    if (shape.liftAt(sign * middle) < lift) below = middle;
    else above = middle;
  }
  return (sign * (below + above)) / 2;
}

function fromCard(points: readonly CardPoint[], maxLift: number, follower: Follower): LobeShape {
  const card = completeCard(points, maxLift, follower);
  const half = seatHalf(card.points, maxLift);
  const inner = card.points.filter((point) => point.lift > 0);
  const flank = lobeFlank(
    half,
    inner.map((point) => half - point.duration / 2),
    inner.map((point) => point.lift),
    maxLift,
  );
  return {
    maxLift,
    openingHalf: half,
    closingHalf: half,
    estimated: card.estimated,
    liftAt: (angle) => flankLift(flank, half - Math.abs(angle)),
  };
}

/** Longest ramp below the first line of a card that is taken without need [crank deg]. */
const USUAL_RAMP = 45;

/**
 * Angle from nose to seat [crank deg]: the first two points carried on along the ramp's power law, not beyond a usual ramp unless
 * the lobe creeps so slowly between the first two lines that a shorter one would be steeper below them.
 */
function seatHalf(points: readonly CardPoint[], maxLift: number): number {
  const first = points[0];
  if (first.lift === 0) return first.duration / 2;
  const second = points.length > 1 ? points[1] : { duration: 0, lift: maxLift };
  const gap = (first.duration - second.duration) / 2;
  const ramp = gap / ((second.lift / first.lift) ** (1 / RAMP_POWER) - 1);
  const creep = (RAMP_OVER_STRAIGHT * first.lift * gap) / (second.lift - first.lift);
  return first.duration / 2 + Math.min(ramp, Math.max(USUAL_RAMP, creep));
}

function fromTable(angle: readonly number[], lift: readonly number[]): LobeShape {
  if (angle.length !== lift.length) {
    throw new DomainError('lift', lift.length, `as many entries as angle, ${angle.length}`);
  }
  if (!(angle.length >= 5)) throw new DomainError('angle', angle.length, 'at least 5 entries');
  lift.forEach((value, i) => {
    if (!(value >= 0)) throw new DomainError(`lift[${i}]`, value, 'zero or positive m');
  });
  const points = angle.map((at, i) => ({ at, lift: lift[i] }));
  const whole =
    angle[0] === 0
      ? [
          ...points
            .slice(1)
            .reverse()
            .map(({ at, lift: l }) => ({ at: -at, lift: l })),
          ...points,
        ]
      : points;
  const maxLift = Math.max(...lift);
  if (!(maxLift > 0)) throw new DomainError('lift', maxLift, 'above 0 somewhere');
  const seated = runOut(whole, maxLift);
  const curve: Interpolant = monotoneCubic(
    seated.map((point) => point.at),
    seated.map((point) => point.lift),
  );
  if (!(curve.from < 0 && curve.to > 0)) {
    throw new DomainError(
      'angle',
      `${curve.from} to ${curve.to}`,
      'on both sides of the centre of the lobe, 0',
    );
  }
  return {
    maxLift,
    openingHalf: -curve.from,
    closingHalf: curve.to,
    estimated: [],
    liftAt: (at) => (at <= curve.from || at >= curve.to ? 0 : Math.max(0, curve.valueAt(at))),
  };
}

type TablePoint = { readonly at: number; readonly lift: number };

/** Cuts zeros beyond the seats; adds a seat where the table stops above it, tangent to its last straight. */
function runOut(points: readonly TablePoint[], maxLift: number): TablePoint[] {
  const closing = runOutOneSide(points, maxLift);
  const mirror = (list: readonly TablePoint[]): TablePoint[] =>
    list.map(({ at, lift }) => ({ at: -at, lift })).reverse();
  return mirror(runOutOneSide(mirror(closing), maxLift));
}

function runOutOneSide(points: readonly TablePoint[], maxLift: number): TablePoint[] {
  const lastOpen = points.findLastIndex((point) => point.lift > 0);
  if (lastOpen + 1 < points.length) return points.slice(0, lastOpen + 2);
  const last = points[lastOpen];
  if (!(last.lift <= 0.1 * maxLift)) {
    throw new DomainError('lift', last.lift, 'near zero at both ends of the table');
  }
  const before = points[lastOpen - 1];
  const fall = (before.lift - last.lift) / (last.at - before.at);
  if (!(fall > 0)) throw new DomainError('lift', last.lift, 'falling towards the ends of the table');
  return [...points, { at: last.at + (2 * last.lift) / fall, lift: 0 }];
}
