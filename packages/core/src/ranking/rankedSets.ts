/** Several changes at once: all that go together, and the best that a budget bears and no limit forbids. */

import { applyChanges } from '../changes/applyChanges.ts';
import type { Change } from '../changes/change.ts';
import { LEAST_GAIN_PCT } from '../changes/notModelled.ts';
import { totalSpent } from '../changes/totalSpent.ts';
import type { Combination } from '../combination/combination.ts';
import { type Breach, limitBreaches, newBreaches } from '../forecast/limits.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { cautionsOf } from '../studies/cautions.ts';
import { type Budget, bestSubset } from './bestSubset.ts';
import { powerGain } from './rankedChanges.ts';
import type { RankedChange, RankedPair, RankedSet, RankingResult } from './rankingResult.ts';
import { BASELINE, changeKey, pairKey, type RankStudy } from './rankStudy.ts';
import type { ChangeWorth } from './worthwhile.ts';

/** Sets that turn out to break a limit only once they are forecast whole are passed over so often. */
export const MOST_TRIES = 4;

/** Of what is worth having. Forecast as such, since three changes may do to each other what no pair shows. */
export async function rankSets(
  study: RankStudy,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
  worths: ReadonlyMap<string, ChangeWorth>,
  budget: Budget,
  sheet: SheetSource | undefined,
): Promise<Pick<RankingResult, 'together' | 'best'>> {
  const index = new Map(pairs.map((pair) => [pairKey(pair.a, pair.b), pair]));
  const pairOf = (i: number, j: number): RankedPair | undefined =>
    index.get(pairKey(ranked[i].name, ranked[j].name));
  const interaction = (i: number, j: number): number | null => pairOf(i, j)?.interactionPct ?? null;
  const sets = setsOf(study, ranked, sheet);
  const all: number[] = [];
  ranked.forEach((_, i) => {
    if (all.every((j) => interaction(i, j) !== null)) all.push(i);
  });
  const parts = choicesOf(ranked, worths);
  const choose = (forbidden: readonly (readonly number[])[]): Chosen => {
    const tried = bestParts(ranked, parts, pairOf, budget, forbidden);
    return { tried, members: tried.flatMap((at) => parts[at]).sort((i, j) => i - j) };
  };
  // After an abort nothing more is run.
  const goesOn = study.queue.complete;
  let best = choose([]);
  if (goesOn) await sets.run([all, best.members]);
  const forbidden: (readonly number[])[] = [];
  while (goesOn && sets.breachesOf(best.members).length > 0 && forbidden.length < MOST_TRIES) {
    forbidden.push(best.tried);
    best = choose(forbidden);
    await sets.run([best.members]);
  }
  const isBroken = sets.breachesOf(best.members).length > 0;
  return {
    together: sets.ranked(all, interaction),
    best: isBroken ? null : sets.ranked(best.members, interaction),
  };
}

/** Sets of changes, by their indices: forecast on demand, and what came of each. */
interface Sets {
  readonly run: (wanted: readonly (readonly number[])[]) => Promise<void>;
  readonly breachesOf: (members: readonly number[]) => readonly Breach[];
  /** Null where it is empty or could not be forecast. */
  readonly ranked: (
    members: readonly number[],
    interaction: (i: number, j: number) => number | null,
  ) => RankedSet | null;
}

function setsOf(
  { queue, changes, baseline, ask, speeds }: RankStudy,
  ranked: readonly RankedChange[],
  sheet: SheetSource | undefined,
): Sets {
  const engines = new Map<string, Combination>();
  const base = queue.curve(BASELINE);
  const names = (members: readonly number[]): readonly string[] => members.map((i) => ranked[i].name);
  // A set of one is the change alone, which is forecast already.
  const keyOf = (members: readonly number[]): string =>
    members.length === 1
      ? changeKey(ranked[members[0]].name)
      : `set: ${[...names(members)].sort().join('\n')}`;
  const run = async (wanted: readonly (readonly number[])[]): Promise<void> => {
    for (const members of wanted) {
      const named: readonly Change[] = names(members).flatMap((name) =>
        changes.filter((change) => change.name === name),
      );
      const result =
        members.length === 0 ? null : applyChanges(baseline, named, { sheet, effectless: 'allow' });
      if (result === null || !result.ok) continue;
      engines.set(keyOf(members), result.value);
      ask(keyOf(members), result.value);
    }
    await queue.run();
  };
  const breachesOf = (members: readonly number[]): readonly Breach[] => {
    const [curve, engine] = [queue.curve(keyOf(members)), engines.get(keyOf(members))];
    if (curve === null || base === null || engine === undefined) return [];
    return newBreaches(limitBreaches(baseline.combination, base), limitBreaches(engine, curve));
  };
  return {
    run,
    breachesOf,
    ranked: (members, interaction) => {
      const curve = members.length === 0 ? null : queue.curve(keyOf(members));
      if (curve === null || base === null) return null;
      const gain = powerGain(base, curve, speeds);
      return {
        changes: names(members),
        bandGainPct: gain.pct,
        bandGainKw: gain.kw,
        addedUpPct: members.reduce((sum, i) => sum + ranked[i].bandGainPct, crossed(members, interaction)),
        cost: totalOf(ranked, members, 'cost'),
        hours: totalOf(ranked, members, 'hours'),
        cautions: cautionsOf(base, curve),
        breaches: breachesOf(members),
      };
    },
  };
}

/** What was chosen. */
interface Chosen {
  /** Indices of parts, see {@link choicesOf}. */
  readonly tried: readonly number[];
  /** Indices of their changes, rising. */
  readonly members: readonly number[];
}

/** The parts that gain most together within the budget, by what is known of changes and pairs; the same as a forbidden choice never. */
function bestParts(
  ranked: readonly RankedChange[],
  parts: readonly (readonly number[])[],
  pairOf: (i: number, j: number) => RankedPair | undefined,
  budget: Budget,
  forbidden: readonly (readonly number[])[],
): readonly number[] {
  const interaction = (i: number, j: number): number | null => pairOf(i, j)?.interactionPct ?? null;
  const choices = parts.map((members) => ({
    name: members.map((i) => ranked[i].name).join('\n'),
    gainPct: members.reduce((sum, i) => sum + ranked[i].bandGainPct, crossed(members, interaction)),
    cost: totalOf(ranked, members, 'cost'),
    hours: totalOf(ranked, members, 'hours'),
  }));
  const usable = (a: number, b: number): number | null => {
    if (parts[a].some((i) => parts[b].includes(i))) return null;
    let sum = 0;
    for (const i of parts[a])
      for (const j of parts[b]) {
        const pair = pairOf(i, j);
        // What breaks a limit alone is in a part with what bears it; what it breaks beside others shows once the set is forecast.
        const isBorne = ranked[i].breaches.length + ranked[j].breaches.length > 0;
        if (pair === undefined || (pair.breaches.length > 0 && !isBorne)) return null;
        sum += pair.interactionPct;
      }
    return sum;
  };
  return bestSubset(choices, usable, budget, forbidden)?.members ?? [];
}

/** What may be chosen, as indices of changes: each that is worth having, and each that breaks a limit with the one that bears it. */
function choicesOf(
  ranked: readonly RankedChange[],
  worths: ReadonlyMap<string, ChangeWorth>,
): readonly (readonly number[])[] {
  return ranked.flatMap(({ name, breaches }, i): number[][] => {
    const worth = worths.get(name);
    if (worth?.isWorthwhile !== true) return [];
    if (breaches.length === 0) return worth.expectedPct > LEAST_GAIN_PCT ? [[i]] : [];
    const bearer = ranked.findIndex((entry) => entry.name === worth.unlock?.first);
    return bearer < 0 ? [] : [[bearer, i]];
  });
}

/** Interactions of each pair of them [%]. */
function crossed(members: readonly number[], interaction: (i: number, j: number) => number | null): number {
  return members.reduce(
    (sum, i, n) => members.slice(0, n).reduce((inner, j) => inner + (interaction(i, j) ?? 0), sum),
    0,
  );
}

/** Null where a member does not state it. */
function totalOf(
  ranked: readonly RankedChange[],
  members: readonly number[],
  of: 'cost' | 'hours',
): number | null {
  return totalSpent(
    members.map((i) => ranked[i]),
    of,
  );
}
