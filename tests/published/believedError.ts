/** What was believed of the model's error before any published engine was looked at, and how what was seen is added to it. */
import type { ModelError } from '../../packages/core/src/forecast/modelError.ts';

/**
 * What is believed before any engine is looked at, counted as so many engines: one-dimensional codes that were fitted to
 * nothing miss torque and power by about 5 %, the speeds of their peaks by 300 rpm, gains by 1 % (from memory). So few engines with
 * sheets are published that their scatter alone would say next to nothing.
 */
export const BELIEVED_ERROR: ModelError & { readonly engines: number } = {
  torque: 0.05,
  power: 0.05,
  torqueSpeed: 300,
  powerSpeed: 300,
  gain: 0.01,
  engines: 4,
};

/**
 * Belief and published engines together: the square is (engines believed x belief squared + sum of squared misses) / (engines believed +
 * engines seen), the mean of a scaled inverse chi-squared belief (Gelman and others, Bayesian Data Analysis, section 2.6; from
 * memory). A slow test works the figures out again from the published engines.
 */
export function pooledError(believed: number, misses: readonly number[], engines: number): number {
  const squares = misses.reduce((sum, miss) => sum + miss * miss, engines * believed * believed);
  return Math.sqrt(squares / (engines + misses.length));
}
