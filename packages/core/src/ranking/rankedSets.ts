/** Several changes at once: all that go together, and the best that a budget bears and no limit forbids. */

import { applyChanges } from '../changes/applyChanges.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import { type Breach, limitBreaches, newBreaches } from '../forecast/limits.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { cautionsOf } from '../studies/cautions.ts';
import { type Budget, bestSubset } from './bestSubset.ts';
import { powerGain } from './rankedChanges.ts';
import type { RankedChange, RankedPair, RankedSet, Ranking } from './rankingResult.ts';
import { BASELINE, changeKey, pairKey, type RankStudy } from './rankStudy.ts';
import type { Worth } from './worthwhile.ts';

/** What {@link rankSets} runs its forecasts with. */
export interface SetTools {
  /** Queues a combination at the speeds of the gains. */
  readonly ask: (name: string, combination: Combination) => void;
  readonly sheet: SheetSource | undefined;
}

/** Sets that turn out to break a limit only once they are forecast whole are passed over so often. */
export const MOST_TRIES = 4;

/** Of what is worth having. Forecast as such, since three changes may do to each other what no pair shows. */
export async function rankSets(
  study: RankStudy,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
  worths: ReadonlyMap<string, Worth>,
  budget: Budget,
  { ask, sheet }: SetTools,
): Promise<Pick<Ranking, 'together' | 'best'>> {
  const { queue, changes, baseline } = study;
  const index = new Map(pairs.map((pair) => [pairKey(pair.a, pair.b), pair]));
  const pairOf = (i: number, j: number): RankedPair | undefined =>
    index.get(pairKey(ranked[i].name, ranked[j].name));
  const interaction = (i: number, j: number): number | null => pairOf(i, j)?.interactionPct ?? null;
  const all: number[] = [];
  ranked.forEach((_, i) => {
    if (all.every((j) => interaction(i, j) !== null)) all.push(i);
  });
  const engines = new Map<string, Combination>();
  const keyOf = (members: readonly number[]): string =>
    members.length === 1
      ? changeKey(ranked[members[0]].name)
      : `set: ${members
          .map((i) => ranked[i].name)
          .sort()
          .join('\n')}`;
  const run = async (wanted: readonly (readonly number[])[]): Promise<void> => {
    for (const members of wanted) {
      const named: readonly Change[] = members.flatMap((i) =>
        changes.filter(({ name }) => name === ranked[i].name),
      );
      const result = members.length === 0 ? null : applyChanges(baseline, named, { sheet });
      if (result === null || !result.ok) continue;
      engines.set(keyOf(members), result.value);
      ask(keyOf(members), result.value);
    }
    await queue.run();
  };
  const base = queue.curve(BASELINE);
  const breachesOf = (members: readonly number[]): readonly Breach[] => {
    const [curve, engine] = [queue.curve(keyOf(members)), engines.get(keyOf(members))];
    if (curve === null || base === null || engine === undefined) return [];
    return newBreaches(limitBreaches(baseline.combination, base), limitBreaches(engine, curve));
  };
  const choose = (forbidden: readonly (readonly number[])[]): readonly number[] => {
    const choices = ranked.map(({ name, bandGainPct, cost, hours }) => ({
      name,
      gainPct: bandGainPct,
      cost,
      hours,
    }));
    const allowed = (i: number, j: number): number | null => {
      const pair = pairOf(i, j);
      return pair === undefined || pair.breaches.length > 0 ? null : pair.interactionPct;
    };
    const isOut = (i: number): boolean => worths.get(ranked[i].name)?.isWorthwhile !== true;
    const alone = ranked.flatMap((_, i) => (isOut(i) ? [[i]] : []));
    const usable = (i: number, j: number): number | null => (isOut(i) || isOut(j) ? null : allowed(i, j));
    return bestSubset(choices, usable, budget, [...alone, ...forbidden])?.members ?? [];
  };
  // After an abort nothing more is run.
  const goesOn = queue.complete;
  let best = choose([]);
  if (goesOn) await run([all, best]);
  const forbidden: (readonly number[])[] = [];
  while (goesOn && best.length > 0 && breachesOf(best).length > 0 && forbidden.length < MOST_TRIES) {
    forbidden.push(best);
    best = choose(forbidden);
    await run([best]);
  }
  if (breachesOf(best).length > 0) best = [];
  const set = (members: readonly number[]): RankedSet | null => {
    const curve = members.length === 0 ? null : queue.curve(keyOf(members));
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
      breaches: breachesOf(members),
    };
  };
  return { together: set(all), best: set(best) };
}
