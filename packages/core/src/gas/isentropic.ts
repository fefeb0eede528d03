/** Isentropic flow of a perfect gas through a nozzle: the flux function that turns a flow into an area and back. */
import { DomainError } from '../base/errors.ts';

/**
 * Critical pressure ratio [-]: throat over stagnation pressure at which the throat reaches the speed of sound.
 *
 * (2/(gamma+1))^(gamma/(gamma-1)); 0.528282 for gamma 1.4.
 *
 * @param gamma - ratio of specific heats [-], above 1
 * @see Heywood (1988), Internal Combustion Engine Fundamentals, appendix C (from memory)
 */
export function criticalPressureRatio(gamma: number): number {
  if (!(gamma > 1)) throw new DomainError('gamma', gamma, 'above 1');
  return (2 / (gamma + 1)) ** (gamma / (gamma - 1));
}

/**
 * Flux function psi [-]: mass flux per effective area over p0/sqrt(R T0).
 *
 * psi^2 = 2 gamma/(gamma-1) (r^(2/gamma) - r^((gamma+1)/gamma)), constant below the critical ratio (choked).
 * Ratios above 1 are an error, not a negative flow: the caller decides which side is upstream.
 *
 * @param pressureRatio - static pressure downstream over stagnation pressure upstream [-], 0 to 1
 * @param gamma - ratio of specific heats [-], above 1
 * @see Heywood (1988), Internal Combustion Engine Fundamentals, appendix C (from memory)
 */
export function isentropicFluxFunction(pressureRatio: number, gamma: number): number {
  if (!(pressureRatio >= 0 && pressureRatio <= 1)) {
    throw new DomainError('pressureRatio', pressureRatio, 'in [0, 1]');
  }
  const r = Math.max(pressureRatio, criticalPressureRatio(gamma));
  // r^(2/g) (1 - r^((g-1)/g)) written with expm1, so that a small pressure difference keeps its digits.
  const drop = 0 - Math.expm1(((gamma - 1) / gamma) * Math.log(r));
  return Math.sqrt(((2 * gamma) / (gamma - 1)) * r ** (2 / gamma) * drop);
}
