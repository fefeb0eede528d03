/** What may be hoped of a figure that is known by its mean and spread only. */
import { normalDensity, normalShareBelow } from '../numerics/normal.ts';

/**
 * Chance that a normally distributed figure is above a bar [-].
 *
 * @param mean - of the figure, in any unit
 * @param sigma - one standard deviation, same unit; zero for a figure that is known
 * @param bar - same unit
 */
export function normalChanceAbove(mean: number, sigma: number, bar: number): number {
  if (!(sigma > 0)) return mean > bar ? 1 : 0;
  return normalShareBelow((mean - bar) / sigma);
}

/**
 * How much a normally distributed figure is above a bar on average, below it counting as nothing [unit of the figure]: expected
 * improvement (Jones, Schonlau and Welch, Journal of Global Optimization 13 (1998) 455, equation 15; from memory).
 */
export function expectedGain(mean: number, sigma: number, bar: number): number {
  if (!(sigma > 0)) return Math.max(0, mean - bar);
  const z = (mean - bar) / sigma;
  return sigma * (z * normalShareBelow(z) + normalDensity(z));
}
