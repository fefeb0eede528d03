/** The changes of a ranking as its order of tests sees them. */
import { accessOf } from '../changes/access.ts';
import type { RankedChange, RankedPair } from './rankingResult.ts';
import type { RankStudy } from './rankStudy.ts';
import type { TestCandidate } from './testSteps.ts';

/** Each change as the one rule and the order of tests see it. */
export function candidatesOf(
  { changes }: RankStudy,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
): readonly TestCandidate[] {
  return ranked.flatMap((entry) => {
    const change = changes.find(({ name }) => name === entry.name);
    if (change === undefined) return [];
    const { name, bandGainPct: gainPct, chanceOfGain, reversible, cost, hours, tieGroup } = entry;
    const { insteadOf } = change;
    const against =
      entry.breaches[0]?.message ??
      (entry.notModelled === null ? null : `not modelled: ${entry.notModelled}`);
    return [
      {
        name,
        gainPct,
        chanceOfGain,
        access: accessOf(change),
        reversible,
        cost,
        hours,
        insteadOf,
        tieGroup,
        pulls: entry.pullsNeeded,
        against,
        enabledBy: entry.breaches.length === 0 ? null : bearerOf(name, ranked, pairs),
      },
    ];
  });
}

/** Of the changes that break no limit, the one beside which this one breaks none either, and gains most; null where there is none. */
function bearerOf(
  name: string,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
): string | null {
  const free = new Set(ranked.filter(({ breaches }) => breaches.length === 0).map((entry) => entry.name));
  const [best] = pairs
    .filter(({ a, b, breaches }) => breaches.length === 0 && (a === name || b === name))
    .map(({ a, b, togetherPct }) => ({ other: a === name ? b : a, togetherPct }))
    .filter(({ other }) => free.has(other))
    .sort((x, y) => y.togetherPct - x.togetherPct || (x.other < y.other ? -1 : 1));
  return best?.other ?? null;
}
