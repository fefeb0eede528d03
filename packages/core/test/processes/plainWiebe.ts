/** Wiebe's law as it is printed, not cut at the end of the duration: what published figures and the ideal cycle are of. */

/**
 * Burned mass fraction [-]: 1 - exp(-a y^(m+1)), y = (angle - start) / duration; zero before the start.
 *
 * Not cut at the end of the duration, where it is 1 - exp(-a) and still rising. Angles in any one unit.
 * Source: Wiebe (1956) as given by Heywood (1988), eq. 9.27 (from memory). For m > -1, duration > 0.
 */
export function wiebeFraction(angle: number, start: number, duration: number, a: number, m: number): number {
  const y = (angle - start) / duration;
  return y > 0 ? -Math.expm1(-a * y ** (m + 1)) : 0;
}

/** Derivative of {@link wiebeFraction} [1/unit of the angles]. */
export function wiebeRate(angle: number, start: number, duration: number, a: number, m: number): number {
  const y = (angle - start) / duration;
  if (!(y > 0)) return 0;
  const ym = y ** m;
  return ((a * (m + 1)) / duration) * ym * Math.exp(-a * ym * y);
}

/**
 * Share of the duration after which `fraction` is burned [-], inverse of {@link wiebeFraction}; may exceed one.
 */
export function wiebeShare(fraction: number, a: number, m: number): number {
  return (-Math.log1p(-fraction) / a) ** (1 / (m + 1));
}
