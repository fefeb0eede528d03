/** The standard normal distribution. */

/** Probability density at `z` [-]. */
export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/**
 * Share of the distribution beyond `z`, over its density at `z` [-]. For a z of zero or more.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.17 (from memory), error of the share below 7.5e-8.
 */
export function millsRatio(z: number): number {
  const t = 1 / (1 + 0.2316419 * z);
  return t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
}

/** Share of the distribution below `z` [-]; error below 7.5e-8. */
export function normalShareBelow(z: number): number {
  const tail = normalDensity(z) * millsRatio(Math.abs(z));
  return z > 0 ? 1 - tail : tail;
}
