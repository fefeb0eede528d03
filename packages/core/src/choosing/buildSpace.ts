/** All the builds there are: one alternative of each factor. */
import type { Build, Factor } from './effectModel.ts';

/** What is searched. */
export interface SearchSpace {
  readonly factors: readonly Factor[];
  /** Whether a build may be had at all; known without a forecast. */
  readonly allowed: (build: Build) => boolean;
  /** A build that may be had, where searches begin: the engine as it is, or the nearest to it. */
  readonly home: Build;
}

/** Builds, those that may not be had among them. */
export function sizeOf({ factors }: SearchSpace): number {
  return factors.reduce((product, { levels }) => product * levels, 1);
}

/** A name that is the build's own. */
export function keyOf(build: Build): string {
  return build.join(' ');
}

/** The builds that may be had, the last factor turning fastest. */
export function buildsOf({ factors, allowed }: SearchSpace): readonly Build[] {
  return [...everyBuild(factors)].filter(allowed);
}

/** All builds, the last factor turning fastest. */
export function* everyBuild(factors: readonly Factor[]): Generator<Build> {
  const build = factors.map(() => 0);
  for (;;) {
    yield [...build];
    let g = factors.length - 1;
    while (g >= 0 && build[g] === factors[g].levels - 1) build[g--] = 0;
    if (g < 0) return;
    build[g] += 1;
  }
}

/** The builds that differ in one factor and may be had. */
export function neighboursOf({ factors, allowed }: SearchSpace, build: Build): readonly Build[] {
  return factors.flatMap(({ levels }, g) =>
    Array.from({ length: levels }, (_, l) => l)
      .filter((l) => l !== build[g])
      .map((l) => build.map((own, i) => (i === g ? l : own)))
      .filter(allowed),
  );
}
