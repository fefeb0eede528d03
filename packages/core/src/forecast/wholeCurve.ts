/** Curves of which every speed has figures, and what was left out of those that have not. */
import type { Curve, CurvePeak, LostPoint, MarchedPoint, OperatingPoint } from './curve.ts';

/** A curve none of whose speeds was lost. */
export interface WholeCurve extends Curve {
  /** One a speed, rising, all with figures. */
  readonly points: readonly MarchedPoint[];
  /** Highest torque and power, and their speeds. */
  readonly peak: CurvePeak;
}

/** A speed that a study could not count, since its march was lost. */
export interface LeftOut {
  /** Which curve: a combination, a change, or what was done to it. */
  readonly curve: string;
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Why the march was lost, one sentence without its full stop. */
  readonly reason: string;
}

/**
 * Whether a point has figures.
 *
 * @example
 * ```ts
 * for (const point of curve.points) console.log(point.rpm, isMarched(point) ? point.torqueNm : point.reason);
 * ```
 */
export function isMarched(point: OperatingPoint): point is MarchedPoint {
  return point.status !== 'lost';
}

/**
 * The points of a curve that have figures.
 *
 * @example
 * ```ts
 * for (const { rpm, torqueNm } of marchedPoints(curve)) console.log(rpm, torqueNm);
 * ```
 */
export function marchedPoints({
  points,
}: {
  readonly points: readonly OperatingPoint[];
}): readonly MarchedPoint[] {
  return points.filter(isMarched);
}

/**
 * The same curve where every speed has figures, null where one was lost.
 *
 * @example
 * ```ts
 * const whole = wholeCurve(curve);
 * if (whole !== null) console.log(whole.peak.power.powerHp);
 * ```
 */
export function wholeCurve(curve: Curve): WholeCurve | null {
  const points = marchedPoints(curve);
  return curve.peak !== null && points.length === curve.points.length
    ? { ...curve, points, peak: curve.peak }
    : null;
}

/** The lost speeds of a curve under the name it goes by. */
export function leftOutOf(name: string, curve: Curve | null): readonly LeftOut[] {
  const lost = (curve?.points ?? []).filter((point): point is LostPoint => point.status === 'lost');
  return lost.map(({ rpm, reason }) => ({ curve: name, rpm, reason }));
}
