/** Adiabatic compression of a frozen blend. */
import { DomainError } from '../base/errors.ts';
import type { GasTables } from './gasTables.ts';

/**
 * Temperature [K] after compressing or expanding a frozen blend without heat from temperature `T` by a ratio of volumes
 * `ratio` = before / after [-]; the pressure follows from p V / T.
 *
 * Solves s(T2) - s(T) = R ln(T2 / T) + R ln(ratio), constant entropy of an ideal gas, by Newton's method.
 *
 * @param b - burned share of the blend [-]
 * @throws {@link DomainError} where temperature or ratio is not positive
 */
export function compressedTemperature(tables: GasTables, T: number, b: number, ratio: number): number {
  if (!(T > 0)) throw new DomainError('T', T, 'positive K');
  if (!(ratio > 0)) throw new DomainError('ratio', ratio, 'positive');
  const R = tables.freshR + b * (tables.burnedR - tables.freshR);
  const target = blendEntropy(tables, T, b) - R * Math.log(T) + R * Math.log(ratio);
  let next = T * ratio ** 0.33;
  for (let i = 0; i < 30; i++) {
    const f = blendEntropy(tables, next, b) - R * Math.log(next) - target;
    const cv = ((blendEntropy(tables, next + 5, b) - blendEntropy(tables, next - 5, b)) / 10) * next - R;
    const change = (f * next) / cv;
    next -= change;
    if (Math.abs(change) < 1e-8 * next) break;
  }
  return next;
}

/** Temperature part of the entropy of a frozen blend [J/(kg K)], without the constant of mixing. */
export function blendEntropy(tables: GasTables, T: number, b: number): number {
  const { freshS, burnedS, tMin, dT } = tables;
  const k = Math.min(Math.max(Math.floor((T - tMin) / dT), 0), tables.count - 2);
  const low = freshS[k] + b * (burnedS[k] - freshS[k]);
  const high = freshS[k + 1] + b * (burnedS[k + 1] - freshS[k + 1]);
  return low + ((T - tMin) / dT - k) * (high - low);
}
