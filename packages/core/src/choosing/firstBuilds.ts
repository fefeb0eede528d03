/** The builds that a search begins with. */

import { randomNamed } from '../numerics/random.ts';
import { keyOf, type SearchSpace } from './buildSpace.ts';
import { type Build, firstWeights, fitEffects } from './effectModel.ts';
import { climbed, randomBuild } from './walks.ts';

/** First builds for each degree of freedom of the factors, and at the least. */
export const FIRST_EACH = 3;
export const FIRST_LEAST = 12;

/**
 * First builds, the engine as it is before all: each next is that of which the ones before say least, which is to say the design
 * with the largest determinant, built up one by one (from memory: Fedorov's exchange in its greedy form).
 */
export function firstBuilds(space: SearchSpace, seed: number, had: number, most: number): readonly Build[] {
  const { factors } = space;
  // Of a size, a straight and a bent effect are looked for.
  const freedom = factors.reduce(
    (sum, { levels, ordered }) => sum + Math.min(levels - 1, ordered ? 2 : levels),
    0,
  );
  const count = Math.min(Math.max(FIRST_LEAST, FIRST_EACH * freedom), had, most);
  const weights = firstWeights(factors);
  const { uniform } = randomNamed(seed, 'first builds');
  const builds: Build[] = [space.home];
  while (builds.length < count) {
    const { predict } = fitEffects(
      factors,
      builds,
      builds.map(() => 0),
      weights,
      0,
    );
    const unknown = (build: Build): number => predict(build).sigma;
    const known = new Set(builds.map(keyOf));
    let best: { build: Build; sigma: number } | null = null;
    for (let start = 0; start < 2; start++) {
      const build = climbed(space, randomBuild(space, uniform), unknown);
      const sigma = unknown(build);
      if (!known.has(keyOf(build)) && (best === null || sigma > best.sigma)) best = { build, sigma };
    }
    if (best === null) return builds;
    builds.push(best.build);
  }
  return builds;
}
