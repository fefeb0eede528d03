/** Several changes at once: all that go together, and the best that a budget bears. */

import { applyChanges } from '../changes/applyChanges.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { cautionsOf } from '../studies/cautions.ts';
import { type Budget, bestSubset } from './bestSubset.ts';
import { powerGain } from './rankedChanges.ts';
import type { RankedChange, RankedPair, RankedSet, Ranking } from './rankingResult.ts';
import { BASELINE, changeKey, pairKey, type RankStudy } from './rankStudy.ts';

/** What {@link rankSets} runs its forecasts with. */
export interface SetTools {
  /** Queues a combination at the speeds of the gains. */
  readonly ask: (name: string, combination: Combination) => void;
  readonly sheet: SheetSource | undefined;
}

/** Forecast as such, since three changes may do to each other what no pair shows. */
export async function rankSets(
  study: RankStudy,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
  budget: Budget,
  { ask, sheet }: SetTools,
): Promise<Pick<Ranking, 'together' | 'best'>> {
  const { queue, changes, baseline } = study;
  const index = new Map(pairs.map((pair) => [pairKey(pair.a, pair.b), pair.interactionPct]));
  const interaction = (i: number, j: number): number | null =>
    index.get(pairKey(ranked[i].name, ranked[j].name)) ?? null;
  const all: number[] = [];
  ranked.forEach((_, i) => {
    if (all.every((j) => interaction(i, j) !== null)) all.push(i);
  });
  const choices = ranked.map(({ name, bandGainPct, cost, hours }) => ({
    name,
    gainPct: bandGainPct,
    cost,
    hours,
  }));
  const best = bestSubset(choices, interaction, budget)?.members ?? [];
  const named = (members: readonly number[]): readonly Change[] =>
    members.flatMap((i) => changes.filter(({ name }) => name === ranked[i].name));
  const key = (members: readonly number[]): string =>
    members.length === 1
      ? changeKey(ranked[members[0]].name)
      : `set: ${members
          .map((i) => ranked[i].name)
          .sort()
          .join('\n')}`;
  // After an abort nothing more is run.
  const wanted = queue.complete ? [all, best] : [];
  for (const members of wanted) {
    if (members.length === 0) continue;
    const result = applyChanges(baseline, named(members), { sheet });
    if (result.ok) ask(key(members), result.value);
  }
  await queue.run();
  const set = (members: readonly number[]): RankedSet | null => {
    const curve = members.length === 0 ? null : queue.curve(key(members));
    const base = queue.curve(BASELINE);
    if (curve === null || base === null) return null;
    const gain = powerGain(base, curve, study.speeds);
    const total = (of: 'cost' | 'hours'): number | null =>
      members.reduce<number | null>((sum, i) => {
        const own = ranked[i][of];
        return sum === null || own === null ? null : sum + own;
      }, 0);
    let addedUp = 0;
    members.forEach((i, n) => {
      addedUp += ranked[i].bandGainPct;
      for (const j of members.slice(0, n)) addedUp += interaction(i, j) ?? 0;
    });
    return {
      changes: members.map((i) => ranked[i].name),
      bandGainPct: gain.pct,
      bandGainKw: gain.kw,
      addedUpPct: addedUp,
      cost: total('cost'),
      hours: total('hours'),
      cautions: cautionsOf(base, curve),
    };
  };
  return { together: set(all), best: set(best) };
}
