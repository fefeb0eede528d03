/** Correction of observed torque and power to the reference air of a standard. */

import { DomainError } from '../base/errors.ts';
import { referenceAir } from '../combination/referenceAir.ts';
import type { CorrectionStandard, Weather } from '../combination/running.ts';

/**
 * Share of friction in indicated torque that SAE J1349 assumes, as its formula rounds it [-]: brake factor =
 * 1.18 x indicated factor - 0.18, that is a mechanical efficiency of 85 %.
 */
export const J1349_FRICTION = 0.18;

/** Corrections beyond this are noted: the standards call the result suspect [-]. */
export const NOTE_BEYOND = 0.03;

/** Corrections beyond this are a caution: outside the range J1349 allows [-]. */
export const CAUTION_BEYOND = 0.07;

/**
 * Factor on indicated torque [-]: (reference / dry pressure) x sqrt(temperature / reference). One for `none`.
 *
 * Source: SAE J607 practice and SAE J1349 (June 1990), both with density to the first power for pressure and to the
 * half for temperature. The printed formulas round absolute zero to -460 F and -273 C; here it is exact, which moves
 * the factor by less than 3e-5.
 *
 * @param dryPressure - barometer less vapour pressure [Pa], positive
 * @param temperature - of the air at the inlet [K], positive
 * @throws {@link DomainError} naming the first argument out of range
 */
export function indicatedFactor(
  standard: CorrectionStandard,
  dryPressure: number,
  temperature: number,
): number {
  if (!(dryPressure > 0)) throw new DomainError('dryPressure', dryPressure, 'positive Pa');
  if (!(temperature > 0)) throw new DomainError('temperature', temperature, 'positive K');
  const reference = referenceAir(standard);
  if (reference === null) return 1;
  return (reference.dryPressure / dryPressure) * Math.sqrt(temperature / reference.temperature);
}

/**
 * Factor on brake torque and power [-] as the standard's own formula gives it, friction not known.
 *
 * J607 practice puts the whole factor on the brake figure; J1349 leaves the friction of an engine of 85 % mechanical
 * efficiency alone: 1.18 x factor - 0.18.
 *
 * @example
 * ```ts
 * brakeFactor('J1349', 98_000, 303); // what an observed torque is multiplied by
 * ```
 */
export function brakeFactor(standard: CorrectionStandard, dryPressure: number, temperature: number): number {
  const factor = indicatedFactor(standard, dryPressure, temperature);
  return standard === 'J1349' ? (1 + J1349_FRICTION) * factor - J1349_FRICTION : factor;
}

/** {@link brakeFactor} in the air of a day [-]. */
export function brakeFactorIn(standard: CorrectionStandard, air: Weather): number {
  return brakeFactor(standard, air.pressure - air.vapourPressure, air.temperature);
}

/**
 * Brake figure under the standard from an observed one whose friction is known [unit of `brake`].
 *
 * J1349 asks for measured friction where there is one: indicated is corrected, friction is not. J607 practice has no
 * friction term, so friction is ignored there. All three in one unit: torque, power or mean effective pressure.
 *
 * @param friction - friction at the same speed, zero or positive
 */
export function correctBrake(
  standard: CorrectionStandard,
  brake: number,
  friction: number,
  dryPressure: number,
  temperature: number,
): number {
  if (!Number.isFinite(brake)) throw new DomainError('brake', brake, 'finite');
  if (!(friction >= 0)) throw new DomainError('friction', friction, 'zero or positive');
  const factor = indicatedFactor(standard, dryPressure, temperature);
  return standard === 'J1349' ? (brake + friction) * factor - friction : brake * factor;
}

/**
 * Factor that takes a brake figure printed under one standard to another [-], by way of the observed figure.
 *
 * J1349's friction term makes it depend on the day's air. Where that is not known, pass {@link referenceAir} of `from`:
 * a figure from J607 to J1349 is then multiplied by 0.9546, one from J1349 to J607 by 1.0401.
 *
 * @example
 * ```ts
 * recorrectionFactor('J607', 'J1349', 98_000, 303); // about 0.96
 * ```
 */
export function recorrectionFactor(
  from: CorrectionStandard,
  to: CorrectionStandard,
  dryPressure: number,
  temperature: number,
): number {
  return brakeFactor(to, dryPressure, temperature) / brakeFactor(from, dryPressure, temperature);
}

/** How far a factor is from one: `ordinary`, `note` beyond 3 %, `caution` beyond 7 %. */
export type CorrectionBand = 'ordinary' | 'note' | 'caution';

/** Which band a brake factor [-] falls in. */
export function correctionBand(factor: number): CorrectionBand {
  if (!(factor > 0)) throw new DomainError('factor', factor, 'positive');
  const off = Math.abs(factor - 1);
  if (off > CAUTION_BEYOND) return 'caution';
  return off > NOTE_BEYOND ? 'note' : 'ordinary';
}
