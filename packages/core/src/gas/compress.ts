/** Adiabatic compression of a frozen blend. */

import { DomainError } from '../base/errors.ts';
import { frozenR, frozenS } from './frozenBlend.ts';
import type { GasTables } from './gasTables.ts';

/** Newton's method ends at a step below this share of the temperature [-]; entropy is so nearly straight in ln T that it takes three or four. */
const CLOSE = 1e-8;
const MOST_STEPS = 30;
/** Exponents of the first guess [-]: (gamma - 1) of volume and (gamma - 1) / gamma of pressure for a gamma of 1.33. */
const VOLUME_EXPONENT = 0.33;
const PRESSURE_EXPONENT = 0.25;

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
  const R = frozenR(tables, b);
  const target = frozenS(tables, T, 0, b) - R * Math.log(T) + R * Math.log(ratio);
  let next = T * ratio ** VOLUME_EXPONENT;
  for (let i = 0; i < MOST_STEPS; i++) {
    const f = frozenS(tables, next, 0, b) - R * Math.log(next) - target;
    const cv = ((frozenS(tables, next + 5, 0, b) - frozenS(tables, next - 5, 0, b)) / 10) * next - R;
    const change = (f * next) / cv;
    next -= change;
    if (Math.abs(change) < CLOSE * next) break;
  }
  return next;
}

/**
 * Temperature [K] after compressing a frozen blend without heat from `T` and `p` to the pressure `end` [Pa].
 *
 * @param b - burned share of the blend [-]
 * @throws {@link DomainError} where temperature or a pressure is not positive
 */
export function temperatureAtPressure(
  tables: GasTables,
  T: number,
  p: number,
  b: number,
  end: number,
): number {
  if (!(T > 0)) throw new DomainError('T', T, 'positive K');
  if (!(p > 0)) throw new DomainError('p', p, 'positive Pa');
  if (!(end > 0)) throw new DomainError('end', end, 'positive Pa');
  const target = frozenS(tables, T, Math.log(p * 1e-5), b);
  const lnEnd = Math.log(end * 1e-5);
  let next = T * (end / p) ** PRESSURE_EXPONENT;
  for (let i = 0; i < MOST_STEPS; i++) {
    const cp = ((frozenS(tables, next + 5, lnEnd, b) - frozenS(tables, next - 5, lnEnd, b)) / 10) * next;
    const change = ((frozenS(tables, next, lnEnd, b) - target) * next) / cp;
    next -= change;
    if (Math.abs(change) < CLOSE * next) break;
  }
  return next;
}
