/** Walks through a space of builds, uphill from build to build. */

import { randomNamed } from '../numerics/random.ts';
import { keyOf, neighboursOf, type SearchSpace } from './buildSpace.ts';
import type { Build, EffectModel } from './effectModel.ts';
import { expected } from './effectModel.ts';
import { expectedGain } from './expectedGain.ts';

/** Walks in a space too large to list, and random starts beside the best known. */
export const WALKS = 16;

/** A build drawn at random, and where it may not be had taken home factor by factor until it may. */
export function randomBuild({ factors, allowed, home }: SearchSpace, uniform: () => number): Build {
  let build: Build = factors.map(({ levels }) => Math.floor(uniform() * levels));
  const order = factors.map((_, g) => ({ g, at: uniform() })).sort((a, b) => a.at - b.at);
  for (const { g } of order) {
    if (allowed(build)) return build;
    build = build.map((own, i) => (i === g ? home[g] : own));
  }
  return build;
}

/** Uphill from a build, a factor at a time, to where no change of one factor leads higher. */
export function climbed(space: SearchSpace, from: Build, height: (build: Build) => number): Build {
  let build = from;
  let top = height(build);
  for (;;) {
    let next: Build | null = null;
    for (const other of neighboursOf(space, build)) {
      const h = height(other);
      if (h > top + 1e-12) {
        top = h;
        next = other;
      }
    }
    if (next === null) return build;
    build = next;
  }
}

/** Builds of a space too large to list that promise something: tops of the model, from the best known and from anywhere, and what lies around them. */
export function walked(
  space: SearchSpace,
  model: EffectModel,
  known: readonly { readonly build: Build; readonly worth: number }[],
  bar: number,
  seed: number,
  round: number,
): readonly Build[] {
  const { uniform } = randomNamed(seed, `walks ${round}`);
  const best = [...known].sort((a, b) => b.worth - a.worth).slice(0, WALKS / 2);
  const starts = [
    ...best.map(({ build }) => build),
    ...Array.from({ length: WALKS / 2 }, () => randomBuild(space, uniform)),
  ];
  const tops = starts.map((start, i) => {
    const top = climbed(space, start, model.mean);
    if (i % 4 > 0) return top;
    // Every fourth walk goes on by what may be, not by what is likely.
    return climbed(space, top, (build) => {
      const { mean, sigma } = expected(model, build);
      return expectedGain(mean, sigma, bar);
    });
  });
  const found = new Map<string, Build>();
  for (const build of [...best.map(({ build: b }) => b), ...tops])
    for (const near of [build, ...neighboursOf(space, build)]) found.set(keyOf(near), near);
  return [...found.values()];
}
