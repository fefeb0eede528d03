/** The mixture of one cylinder, and that of the gas in pipes that all of them share. */
import type { Combination } from './combination.ts';

type Mixture = Pick<Combination, 'lambda' | 'lambdaDifferences'>;

/** Relative air-fuel ratio of a cylinder by its number, from 1 [-]. */
export function lambdaOf({ lambda, lambdaDifferences }: Mixture, cylinder: number): number {
  return lambda + (lambdaDifferences?.[cylinder - 1] ?? 0);
}

/** The same of all cylinders together [-]: where each draws as much air, what all of their fuel makes of it. */
export function sharedLambda({ lambda, lambdaDifferences }: Mixture): number {
  if (lambdaDifferences === undefined) return lambda;
  const fuel = lambdaDifferences.reduce((sum, difference) => sum + 1 / (lambda + difference), 0);
  return lambdaDifferences.length / fuel;
}
