import { describe, expect, it } from 'vitest';
import { buildsOf, type SearchSpace } from '../../src/choosing/buildSpace.ts';
import type { Build, Factor } from '../../src/choosing/effectModel.ts';
import { findBest, type SearchOutcome } from '../../src/choosing/findBest.ts';
import { landscape } from './landscape.ts';

const TWO_WAYS: readonly Factor[] = Array.from({ length: 12 }, () => ({ levels: 2, ordered: false }));
const ALL: SearchSpace = { factors: TWO_WAYS, allowed: () => true, home: TWO_WAYS.map(() => 0) };

const search = (
  space: SearchSpace,
  worth: (build: Build) => number,
  more: { seed?: number; wanted?: number; most?: number } = {},
): Promise<SearchOutcome> =>
  findBest(space, async (builds) => builds.map((build) => ({ worth: worth(build), keepsLimits: true })), {
    seed: 1,
    wanted: 3,
    most: 400,
    ...more,
  });

function best(worths: readonly number[], count: number): readonly number[] {
  return [...worths].sort((a, b) => b - a).slice(0, count);
}

function found({ judged }: SearchOutcome, count = 3): readonly number[] {
  return best(
    judged.flatMap(({ verdict }) => (verdict === null ? [] : [verdict.worth])),
    count,
  );
}

describe('findBest(space, judge, options)', () => {
  // Over 210 landscapes of three roughnesses the best three were found in 209, with 67 to 104 of 4096 builds on average.
  it.each([1, 2, 3])(
    'finds the best three of 4096 builds with a twenty-fifth of them, landscape %d',
    async (seed) => {
      const worth = landscape(TWO_WAYS, seed, { pairs: 0.3, threes: 0.1 });
      const outcome = await search(ALL, worth, { seed });
      expect(found(outcome)).toEqual(best(buildsOf(ALL).map(worth), 3));
      expect(outcome.judged.length).toBeLessThanOrEqual(0.04 * 4096);
      expect(outcome.missing).toBeLessThan(0.05);
      expect(outcome.enumerated).toBe(false);
    },
  );

  it('judges every build of a small space, and no other', async () => {
    const factors = [
      { levels: 3, ordered: false },
      { levels: 4, ordered: true },
    ];
    const allowed = (build: Build): boolean => build[0] + build[1] < 5;
    const { judged, enumerated, missing } = await search(
      { factors, allowed, home: [0, 0] },
      ([a, b]) => a - b,
    );
    expect(judged.map(({ build }) => build.join(''))).toEqual('00 01 02 03 10 11 12 13 20 21 22'.split(' '));
    expect([enumerated, missing]).toEqual([true, 0]);
  });

  it('keeps to builds that may be had, and finds the best of them', async () => {
    const cost = (build: Build): number => build.reduce((sum, level, g) => sum + level * (g + 1), 0);
    const space = { ...ALL, allowed: (build: Build) => cost(build) <= 20 };
    const worth = landscape(TWO_WAYS, 7, { pairs: 0.2, threes: 0 });
    const outcome = await search(space, worth);
    expect(Math.max(...outcome.judged.map(({ build }) => cost(build)))).toBeLessThanOrEqual(20);
    expect(found(outcome)).toEqual(best(buildsOf(space).map(worth), 3));
  });

  it('walks through a space too large to list: sizes with a top of their own and parts that add', async () => {
    const factors = [
      ...Array.from({ length: 4 }, () => ({ levels: 9, ordered: true })),
      ...Array.from({ length: 6 }, () => ({ levels: 4, ordered: false })),
    ];
    const tops = [2, 6, 4, 7];
    const worth = (build: Build): number =>
      tops.reduce((sum, top, g) => sum - 0.2 * (build[g] - top) ** 2, 0) +
      build.slice(4).reduce((sum, level, g) => sum + [0, 1, 3, 2][(level + g) % 4], 0) -
      0.1 * (build[0] - 2) * (build[1] - 6);
    const outcome = await search({ factors, allowed: () => true, home: factors.map(() => 0) }, worth);
    expect(found(outcome, 1)[0]).toBeCloseTo(18, 9);
    expect(outcome.judged.length).toBeLessThan(250);
  });

  it('ranks no build that breaks a limit only a forecast can tell, yet learns from it', async () => {
    const worth = landscape(TWO_WAYS, 3, { pairs: 0.2, threes: 0 });
    const octane = (build: Build): number => build[0] + build[1] + build[2];
    const judge = (build: Build) => ({
      worth: worth(build) - 3 * Math.max(0, octane(build) - 1),
      keepsLimits: octane(build) <= 1,
    });
    const outcome = await findBest(ALL, async (builds) => builds.map(judge), {
      seed: 1,
      wanted: 3,
      most: 400,
    });
    const kept = outcome.judged.flatMap(({ verdict }) => (verdict?.keepsLimits ? [verdict.worth] : []));
    const allowed = buildsOf(ALL).filter((build) => octane(build) <= 1);
    expect(best(kept, 3)).toEqual(best(allowed.map(worth), 3));
  });

  it('judges no more than it may, and says what is to be expected of the rest', async () => {
    const worth = landscape(TWO_WAYS, 2, { pairs: 1, threes: 0.5 });
    const outcome = await search(ALL, worth, { most: 40 });
    expect(outcome.judged).toHaveLength(40);
    expect(outcome.missing).toBeGreaterThan(0.05);
  });

  it('keeps what was judged before an abort', async () => {
    let calls = 0;
    const outcome = await findBest(
      ALL,
      async (builds) => {
        calls += 1;
        return builds.map((build, i) =>
          calls > 1 && i > 3 ? undefined : { worth: build[0], keepsLimits: true },
        );
      },
      { seed: 1, wanted: 3, most: 400 },
    );
    expect([calls, outcome.complete, outcome.judged.length]).toEqual([2, false, 40]);
  });
});
