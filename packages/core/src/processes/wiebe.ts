/** Wiebe's burned fraction over crank angle, normalised to end at exactly one. */
import { DomainError } from '../base/errors.ts';
import { expLessOne } from '../numerics/expAndLogNearZero.ts';

/**
 * Default efficiency parameter [-]: ln 1000, that is 99.9 % burned at the end of the duration. With the 10-90 % span
 * held, `a` only says where the tail is cut.
 */
export const WIEBE_A: number = Math.log(1000);

/** Default form exponent [-], usual for spark ignition (Heywood, Internal Combustion Engine Fundamentals, 1988, section 9.2.3; from memory). */
export const WIEBE_M = 2;

/**
 * Burned mass fraction [-]: (1 - exp(-a y^(m+1))) / (1 - exp(-a)), y = (angle - start) / duration; zero before the start, one after the
 * end. Angles in any one unit; m > -1, duration > 0.
 *
 * Source: Wiebe (1956) as given by Heywood (1988), eq. 9.27 (from memory), divided by what it has burned at the end of the duration.
 */
export function wiebeFractionNormalised(
  angle: number,
  start: number,
  duration: number,
  a: number,
  m: number,
): number {
  const y = (angle - start) / duration;
  if (!(y > 0)) return 0;
  return y < 1 ? expLessOne(-a * y ** (m + 1)) / expLessOne(-a) : 1;
}

/**
 * Derivative of {@link wiebeFractionNormalised} up to the end of the duration [1/unit of the angles]. It is not cut off there: who
 * burns says when it ends, or a step that ends there would count or not by a rounding of its angle.
 */
export function wiebeRateNormalised(
  angle: number,
  start: number,
  duration: number,
  a: number,
  m: number,
): number {
  const y = (angle - start) / duration;
  if (!(y > 0)) return 0;
  const ym = y ** m;
  return (((a * (m + 1)) / duration) * ym * Math.exp(-a * ym * y)) / -expLessOne(-a);
}

/** Share of the duration after which `fraction` is burned [-], inverse of {@link wiebeFractionNormalised}. */
export function wiebeShareNormalised(fraction: number, a: number, m: number): number {
  if (!(fraction >= 0 && fraction <= 1)) throw new DomainError('fraction', fraction, 'in [0, 1]');
  checkShape(a, m);
  return (-Math.log1p(fraction * Math.expm1(-a)) / a) ** (1 / (m + 1));
}

/** Beginning and length of a burn, in the unit of the angles it was made from. */
export interface BurnWindow {
  readonly start: number;
  readonly duration: number;
}

/**
 * Start and duration of the normalised Wiebe function that has 50 % burned at `ca50` and takes `span` from 10 to 90 %
 * [unit of the angles].
 *
 * @throws {@link DomainError} naming the first argument out of range
 */
export function burnWindow(ca50: number, span: number, a: number = WIEBE_A, m: number = WIEBE_M): BurnWindow {
  if (!Number.isFinite(ca50)) throw new DomainError('ca50', ca50, 'finite');
  if (!(span > 0 && span < Number.POSITIVE_INFINITY)) throw new DomainError('span', span, 'positive');
  const duration = span / (wiebeShareNormalised(0.9, a, m) - wiebeShareNormalised(0.1, a, m));
  return { start: ca50 - wiebeShareNormalised(0.5, a, m) * duration, duration };
}

/** Share of the 10-90 % span that lies between 10 and 50 % burned, normalised function [-]: about 0.49 for m = 2. */
export function shareBefore50(a: number = WIEBE_A, m: number = WIEBE_M): number {
  const y10 = wiebeShareNormalised(0.1, a, m);
  return (wiebeShareNormalised(0.5, a, m) - y10) / (wiebeShareNormalised(0.9, a, m) - y10);
}

function checkShape(a: number, m: number): void {
  if (!(a > 0 && a < 700)) throw new DomainError('a', a, 'positive, below 700');
  if (!(m > -1 && m < Number.POSITIVE_INFINITY)) throw new DomainError('m', m, 'above -1');
}
