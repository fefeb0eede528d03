import { describe, expect, it } from 'vitest';
import { groupEffects } from '../../src/choosing/groupEffects.ts';
import type { ShelfSpace } from '../../src/choosing/shelfSpace.ts';

const group = (name: string, choices: readonly string[]) => ({
  name,
  levels: [null, ...choices.map((choice) => ({ name: choice }))],
});
const SHELVED = {
  groups: [group('Compression', ['10.4', '11.8']), group('Pipe', ['long'])],
} as unknown as ShelfSpace;

/** 0, 5 and 10 % of compression, 1.3 % of the pipe. */
const worth = (build: readonly number[]): number => [0, 5, 10][build[0]] + [0, 1.3][build[1]];
const judged = (builds: readonly (readonly number[])[]) =>
  builds.map((build) => ({ build, verdict: { worth: worth(build), keepsLimits: true } }));
const shown = (builds: readonly (readonly number[])[]) =>
  groupEffects(SHELVED, judged(builds), null).map(({ group, effects, rangePct }) => ({
    group,
    effects: effects.map(({ effectPct }) => Number(effectPct.toFixed(6))),
    rangePct: Number(rangePct.toFixed(6)),
  }));

describe('groupEffects(space, judged, null)', () => {
  const every = [0, 1, 2].flatMap((c) => [0, 1].map((p) => [c, p]));

  it('gives each choice against the mean of its group, the group that matters most first', () => {
    expect(shown(every)).toEqual([
      { group: 'Compression', effects: [-5, 0, 5], rangePct: 10 },
      { group: 'Pipe', effects: [-0.65, 0.65], rangePct: 1.3 },
    ]);
  });

  it('gives the same where a budget leaves a build out, and praises no part for its company', () => {
    // Without the dear compression beside the long pipe, means alone would have the pipe lose 1.2 %.
    expect(shown(every.filter(([c, p]) => !(c === 2 && p === 1)))).toEqual(shown(every));
  });

  it('leaves out a choice that no build has', () => {
    expect(shown(every.filter(([c]) => c < 2))[0]).toEqual({
      group: 'Compression',
      effects: [-2.5, 2.5],
      rangePct: 5,
    });
  });
});
