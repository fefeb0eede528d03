/** Mean effective valve area over the open period, and the inlet Mach index made from it. */
import { DomainError } from '../base/errors.ts';
import type { ValveLift } from './valveLift.ts';

/** Effective area of one side of one cylinder over its open period. */
export interface AreaOverPeriod {
  /** Integral of effective area over crank angle [m2 deg]. */
  readonly areaAngle: number;
  /** Seat to seat [crank deg]. */
  readonly openDuration: number;
  /** Integral over duration [m2]. */
  readonly mean: number;
}

/**
 * Effective area averaged over the open period, seat to seat [m2].
 *
 * @param areaAt - effective area [m2] by lift [m]
 * @see Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6: average inlet flow coefficient (from memory)
 */
export function areaOverPeriod(valve: ValveLift, areaAt: (lift: number) => number): AreaOverPeriod {
  const openDuration = valve.closes - valve.opens;
  if (!(openDuration > 0)) throw new DomainError('openDuration', openDuration, 'positive deg');
  let sum = 0;
  for (const lift of valve.table.values) sum += areaAt(lift);
  const areaAngle = sum * valve.table.step;
  return { areaAngle, openDuration, mean: areaAngle / openDuration };
}

/**
 * Inlet Mach index Z [-]: piston area times mean piston speed over mean effective valve area times speed of sound.
 *
 * Filling falls sharply above about 0.5 with the area averaged over the open period.
 *
 * @param pistonArea - [m2]
 * @param meanPistonSpeed - [m/s]
 * @param meanArea - mean effective area over the open period [m2]
 * @param soundSpeed - of the charge at the inlet [m/s]
 * @see JSME Mechanical Engineering Dictionary, "mean inlet Mach number"
 */
export function inletMachIndex(
  pistonArea: number,
  meanPistonSpeed: number,
  meanArea: number,
  soundSpeed: number,
): number {
  if (!(meanArea > 0)) throw new DomainError('meanArea', meanArea, 'positive m2');
  if (!(soundSpeed > 0)) throw new DomainError('soundSpeed', soundSpeed, 'positive m/s');
  return (pistonArea * meanPistonSpeed) / (meanArea * soundSpeed);
}
