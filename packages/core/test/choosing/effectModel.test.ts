import { describe, expect, it } from 'vitest';
import { type Build, firstWeights, fitEffects } from '../../src/choosing/effectModel.ts';
import { expectedGain, normalChanceAbove } from '../../src/choosing/expectedGain.ts';

const FACTORS = [
  { levels: 2, ordered: false },
  { levels: 3, ordered: false },
  { levels: 5, ordered: true },
];
const BUILDS: Build[] = [0, 1].flatMap((a) =>
  [0, 1, 2].flatMap((b) => [0, 1, 2, 3, 4].map((c) => [a, b, c])),
);
const worth = ([a, b, c]: Build): number => 3 + 2 * a + [0, 1, -1][b] - 0.25 * (c - 3) ** 2;

describe('fitEffects(factors, builds, found, weights, passes)', () => {
  const known = BUILDS.filter((_, i) => i % 2 === 0);
  const fitted = () => fitEffects(FACTORS, known, known.map(worth), firstWeights(FACTORS), 2);

  it('says of builds it never saw what their effects add up to, and how surely', () => {
    const { predict } = fitted();
    for (const build of BUILDS) {
      const { mean, sigma } = predict(build);
      expect(Math.abs(mean - worth(build))).toBeLessThan(0.1);
      expect(sigma).toBeLessThan(0.2);
    }
  });

  it('gives effects about the mean of each factor', () => {
    const { effects } = fitted();
    expect(effects(0).map((e) => e.toFixed(1))).toEqual(['-1.0', '1.0']);
    expect(effects(1).map((e) => e.toFixed(1))).toEqual(['0.0', '1.0', '-1.0']);
    expect(effects(2).reduce((sum, e) => sum + e, 0)).toBeCloseTo(0, 6);
  });

  it('says what it would miss a build by, were that left out', () => {
    const some = BUILDS.filter((_, i) => i % 3 !== 1);
    const weights = fitEffects(FACTORS, some, some.map(worth), firstWeights(FACTORS), 1).weights;
    const all = fitEffects(FACTORS, some, some.map(worth), weights, 0);
    const rest = some.slice(1);
    const level = some.reduce((sum, build) => sum + worth(build), 0) / some.length;
    // The level is the mean of all builds in both, so that one formula holds.
    const left = fitEffects(
      FACTORS,
      rest,
      rest.map((build) => worth(build) - level),
      weights,
      0,
    );
    expect(all.missed[0]).toBeCloseTo(worth(some[0]) - level - left.predict(some[0]).mean, 2);
  });
});

describe('normalChanceAbove and expectedGain', () => {
  it('agree with the normal distribution', () => {
    // Of the printed tables: the distribution function at 1.96 and at 1, and the density at 0.
    expect(normalChanceAbove(0, 1, 1.96)).toBeCloseTo(0.0249979, 6);
    expect(normalChanceAbove(2, 2, 0)).toBeCloseTo(0.8413447, 6);
    expect(expectedGain(0, 1, 0)).toBeCloseTo(0.3989423, 6);
    expect(expectedGain(5, 0, 3)).toBe(2);
    expect(normalChanceAbove(5, 0, 5)).toBe(0);
  });
});
