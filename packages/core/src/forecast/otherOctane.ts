/** An engine whose fuel resists knock better than that of one that was forecast: where knock held nothing back, its cycle is the same. */
import type { Combination } from '../combination/combination.ts';
import { octaneIndex } from '../processes/knock.ts';
import type { Curve } from './curve.ts';
import { isMarched } from './wholeCurve.ts';

/** All of an engine but what decides when its fuel knocks, as text. */
export function textBesideOctane(combination: Combination): string {
  const { name, limits, ratedSpeed, units, calibration, assumed, warnings, ...marched } = combination;
  const { name: sold, researchOctane, motorOctane, ...fuel } = marched.fuel;
  const { octaneOffset, ...burn } = marched.burn;
  return JSON.stringify({ ...marched, fuel, burn });
}

/** Shares of the motor method that no engine goes beyond: what holds at both holds between them, since the octane number is linear in it [-]. */
const SHARES = [-1, 2] as const;

/** Whether an engine with the same {@link textBesideOctane} has no less octane in any charge, and nobody asks for a margin of it or heard it knock. */
export function hasMoreOctane(before: Combination, after: Combination): boolean {
  const isBetter = SHARES.every((share) => octaneHere(after, share) >= octaneHere(before, share));
  // A margin is told from the number itself; what was heard moves it by forecasts of its own.
  return isBetter && after.burn.heard.length === 0 && (after.limits.octaneMargin ?? 0) <= 0;
}

/**
 * The curve of an engine that {@link hasMoreOctane} from that of the other. Where that gave no spark back, this gives none back either, and its
 * best timing is the same. The octane number asked for stands as the other's: no more than that has, so no more than this has.
 *
 * @returns null where knock held the other back, which does not tell what this one does
 */
export function withMoreOctane(curve: Curve, after: Combination): Curve | null {
  const isFree = curve.points.every(
    (point) =>
      isMarched(point) &&
      !point.detonates &&
      point.sparkGivenBackDeg === 0 &&
      // Of cylinders that all march, the one that lacks most octane says when all fire, and with another fuel that may be another.
      point.cylinders === undefined,
  );
  return isFree ? { ...curve, combination: after.name, assumed: after.assumed } : null;
}

/** Octane number with such a share of the motor method, less what the engine asks for beside the model [-]. */
function octaneHere({ fuel, burn }: Combination, share: number): number {
  return octaneIndex(fuel.researchOctane, fuel.motorOctane, share) - burn.octaneOffset;
}
