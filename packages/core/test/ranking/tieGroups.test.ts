import { describe, expect, it } from 'vitest';
import { tieGroups } from '../../src/ranking/tieGroups.ts';

/** Chances that follow from how far apart two gains are. */
const byDistance =
  (gains: readonly number[]) =>
  (one: number, other: number): number =>
    gains[one] - gains[other] >= 1 ? 0.95 : 0.6;

describe('tieGroups(count, chanceToBeat)', () => {
  it('keeps together what the leader of the group does not surely beat', () => {
    expect(tieGroups(5, byDistance([5, 4.5, 3.9, 3.5, 1]))).toEqual([1, 1, 2, 2, 3]);
  });

  it('measures against the leader, so that a row of small steps does not become one group', () => {
    expect(tieGroups(4, byDistance([3, 2.5, 2, 1.5]))).toEqual([1, 1, 2, 2]);
  });

  it('knows one group where nothing is known, and none where there is nothing', () => {
    expect(tieGroups(3, () => 0.5)).toEqual([1, 1, 1]);
    expect(tieGroups(0, () => 0.5)).toEqual([]);
  });
});
