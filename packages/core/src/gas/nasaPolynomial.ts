/** Heat capacity, enthalpy and entropy of one gas as a NASA 7-coefficient polynomial. */

/**
 * Coefficients a1 … a7 of two temperature intervals that join at `tMid`:
 *
 *     cp/R   = a1 + a2 T + a3 T² + a4 T³ + a5 T⁴
 *     h/(RT) = a1 + a2 T/2 + a3 T²/3 + a4 T³/4 + a5 T⁴/5 + a6/T
 *     s/R    = a1 ln T + a2 T + a3 T²/2 + a4 T³/3 + a5 T⁴/4 + a7
 *
 * Source: McBride, Gordon and Reno, NASA TM-4513 (1993), eqs. 1 to 3. Standard pressure 1 bar.
 *
 * Range policy: below `tLow` and above `tHigh` cp keeps the value it has there, and h and s follow from it,
 * so that cp stays positive and the three stay consistent at any temperature a solver may try.
 */
export interface NasaPolynomial {
  /** [K] */
  readonly tLow: number;
  /** [K] */
  readonly tMid: number;
  /** [K] */
  readonly tHigh: number;
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** Molar heat capacity at constant pressure over the universal gas constant [-]. */
export function cpOverR(gas: NasaPolynomial, T: number): number {
  const t = Math.min(Math.max(T, gas.tLow), gas.tHigh);
  const a = t < gas.tMid ? gas.low : gas.high;
  return a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * a[4])));
}

/** Molar enthalpy with formation at 298.15 K, over the universal gas constant [K]. */
export function hOverR(gas: NasaPolynomial, T: number): number {
  const t = Math.min(Math.max(T, gas.tLow), gas.tHigh);
  const a = t < gas.tMid ? gas.low : gas.high;
  const h = a[5] + t * (a[0] + t * (a[1] / 2 + t * (a[2] / 3 + t * (a[3] / 4 + (t * a[4]) / 5))));
  return t === T ? h : h + cpOverR(gas, t) * (T - t);
}

/** Molar entropy at 1 bar over the universal gas constant [-]. */
export function sOverR(gas: NasaPolynomial, T: number): number {
  const t = Math.min(Math.max(T, gas.tLow), gas.tHigh);
  const a = t < gas.tMid ? gas.low : gas.high;
  const s = a[0] * Math.log(t) + a[6] + t * (a[1] + t * (a[2] / 2 + t * (a[3] / 3 + (t * a[4]) / 4)));
  return t === T ? s : s + cpOverR(gas, t) * Math.log(T / t);
}

/** Standard Gibbs energy at 1 bar over RT [-]: h/(RT) - s/R. */
export function gOverRT(gas: NasaPolynomial, T: number): number {
  return hOverR(gas, T) / T - sOverR(gas, T);
}
