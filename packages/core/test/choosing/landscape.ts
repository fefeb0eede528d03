/** Invented landscapes over builds: effects, pairs and some threes, drawn by seed. */
import type { Build, Factor } from '../../src/choosing/effectModel.ts';
import { randomNamed } from '../../src/numerics/random.ts';

/** Standard deviations beside that of a single effect, which is 1. */
export interface Roughness {
  readonly pairs: number;
  readonly threes: number;
}

/** Every pair interacts; one in five of the threes does. */
export function landscape(
  factors: readonly Factor[],
  seed: number,
  { pairs, threes }: Roughness,
): (build: Build) => number {
  const { normal, uniform } = randomNamed(seed, 'landscape');
  const table = (sizes: readonly number[], sigma: number): number[] =>
    Array.from({ length: sizes.reduce((a, b) => a * b, 1) }, () => sigma * normal());
  const terms: { readonly of: readonly number[]; readonly values: readonly number[] }[] = [];
  factors.forEach((a, i) => {
    terms.push({ of: [i], values: table([a.levels], 1) });
    factors.slice(0, i).forEach((b, j) => {
      terms.push({ of: [i, j], values: table([a.levels, b.levels], pairs) });
      factors.slice(0, j).forEach((c, k) => {
        if (uniform() < 0.2)
          terms.push({ of: [i, j, k], values: table([a.levels, b.levels, c.levels], threes) });
      });
    });
  });
  return (build) =>
    terms.reduce((sum, { of, values }) => {
      const at = of.reduce((index, g) => index * factors[g].levels + build[g], 0);
      return sum + values[at];
    }, 0);
}
