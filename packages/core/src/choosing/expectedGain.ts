/** What may be hoped of a figure that is known by its mean and spread only. */

/**
 * Chance that a normal figure is above a bar: the normal distribution by Abramowitz and Stegun, 26.2.17, to 1e-7.
 */
export function normalChanceAbove(mean: number, sigma: number, bar: number): number {
  if (!(sigma > 0)) return mean > bar ? 1 : 0;
  return cumulative((mean - bar) / sigma);
}

/**
 * How much a normal figure is above a bar on average, below it counting as nothing: expected improvement (Jones, Schonlau and
 * Welch, Journal of Global Optimization 13 (1998) 455, equation 15; from memory).
 */
export function expectedGain(mean: number, sigma: number, bar: number): number {
  if (!(sigma > 0)) return Math.max(0, mean - bar);
  const z = (mean - bar) / sigma;
  return sigma * (z * cumulative(z) + density(z));
}

function density(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

function cumulative(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    density(z) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
