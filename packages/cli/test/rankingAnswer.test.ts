/** The first line of a ranking in which nothing is worth a test, and its sets. */
import type { RankedSet } from '@valvetide/core';
import { expect, it } from 'vitest';
import { rankingAnswer, setLines } from '../src/render/rankingText.ts';
import { sampleRanking } from './report/sampleRankings.ts';

/** A ranking without a test in its order, its gains moved by so much [kW]. */
function untested(moved: number): string {
  const ranking = sampleRanking(['Headers', 'Cam']);
  const changes = ranking.changes.map((change) => ({ ...change, bandGainKw: change.bandGainKw + moved }));
  return rankingAnswer({ ...ranking, changes, order: { ...ranking.order, steps: [] } }, 'si');
}

it('names the largest gain, and calls it a loss where it is one', () => {
  // 8.4 kW in the sample; 0.82 % of its 420 kW.
  expect(untested(-8)).toMatch(
    / rpm: at most \+0\.4 \+\/- 1\.7 kW \(90 % sure to gain\) from Headers; 3 pulls a side show 3\.4 kW or more$/u,
  );
  expect(untested(-12)).toMatch(
    / rpm: the best, Headers, is a loss, -3\.6 \+\/- 1\.7 kW \(90 % sure to gain\); 3 pulls/u,
  );
});

it('tells the set of all that go together once, where it is the best set too', () => {
  const { together, best, ...ranking } = sampleRanking(['Headers', 'Cam']);
  const set = { ...(together ?? best), changes: ['Headers', 'Cam'] } as RankedSet;
  const told = (one: RankedSet | null, other: RankedSet | null): readonly string[] =>
    setLines({ ...ranking, together: one, best: other }, 'si').map((line) => line.replace(/:.*/u, ''));
  expect(told(set, set)).toEqual(['All that go together, and the best set']);
  expect(told(set, { ...set, changes: ['Cam'] })).toEqual(['All that go together', 'Best set']);
  expect(told(set, null)).toEqual(['All that go together']);
  expect(told(null, set)).toEqual(['Best set']);
});
