/** The pairs of a ranking. */

import { nextTurn } from '../base/turn.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Warning } from '../combination/combination.ts';
import { type Problem, problemLine } from '../combination/problem.ts';
import { resolvablePct } from '../dyno/dynoResolution.ts';
import { type Breach, limitBreaches, newBreaches } from '../forecast/limits.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { interactionPct, interactionThresholdPct, pairVerdictOf } from './interaction.ts';
import type { RankedChange, RankedPair } from './rankingResult.ts';
import { BASELINE, type PairPlan, pairKey, type RankStudy } from './rankStudy.ts';

/**
 * Every pair of changes that do something each; one that can't be had together although nothing says so is warned of. Others have a turn
 * after each, so that jobs reach their threads meanwhile.
 */
export async function pairUp(
  baseline: Baseline,
  changes: readonly Change[],
  sheet: SheetSource | undefined,
): Promise<PairPlan> {
  const pairs: PairPlan['pairs'][number][] = [];
  const warnings: Warning[] = [];
  for (const [i, a] of changes.entries())
    for (const b of changes.slice(i + 1)) {
      if (a.insteadOf !== null && a.insteadOf === b.insteadOf) continue;
      const result = applyChanges(baseline, [a, b], { sheet, effectless: 'allow' });
      if (result.ok) pairs.push({ a: a.name, b: b.name, combination: result.value });
      else warnings.push(impossible([a.name, b.name], result.problems));
      await nextTurn();
    }
  return { pairs, warnings };
}

function impossible(names: readonly string[], problems: readonly Problem[]): Warning {
  const message = `${[...names]
    .sort()
    .map((name) => `'${name}'`)
    .join(' and ')} can't be had together: ${problems.map(problemLine).join('; ')}`;
  return { code: 'pair-impossible', path: '', message };
}

/** Interactions are read where responses are, all four forecasts alike, and added to the gains of the two. */
export function rankPairs(study: RankStudy, ranked: readonly RankedChange[]): readonly RankedPair[] {
  const { queue, responses, pairing } = study;
  const place = new Map(ranked.map((change, i) => [change.name, i]));
  const power = new Map(
    responses.candidates.flatMap((s) => (s === null ? [] : [[s.name, s.power] as const])),
  );
  const base = responses.baseline?.power;
  const own = queue.curve(BASELINE);
  const before = own === null ? [] : limitBreaches(study.baseline.combination, own);
  const breachesOf = ({ a, b, combination }: PairPlan['pairs'][number]): readonly Breach[] => {
    const curve = queue.curve(pairKey(a, b));
    return curve === null ? [] : newBreaches(before, limitBreaches(combination, curve));
  };
  const pairs = pairing.pairs.flatMap((pair): RankedPair[] => {
    const [a, b] = [pair.a, pair.b].sort((x, y) => (place.get(x) ?? 0) - (place.get(y) ?? 0));
    const [one, other] = [ranked[place.get(a) ?? -1], ranked[place.get(b) ?? -1]];
    const both = queue.meanPower(pairKey(a, b));
    const [pa, pb] = [power.get(a), power.get(b)];
    if (base === undefined || both === null || pa === undefined || pb === undefined) return [];
    if (one === undefined || other === undefined) return [];
    const pct = (p: number): number => 100 * (p / base - 1);
    const interaction = interactionPct({ a: pct(pa), b: pct(pb), both: pct(both) });
    const threshold = interactionThresholdPct([one.sigmaPct, other.sigmaPct], resolvablePct(study.dyno));
    return [
      {
        a,
        b,
        togetherPct: one.bandGainPct + other.bandGainPct + interaction,
        interactionPct: interaction,
        verdict: pairVerdictOf(interaction, threshold),
        breaches: breachesOf(pair),
      },
    ];
  });
  return pairs.sort(
    (x, y) =>
      Math.abs(y.interactionPct) - Math.abs(x.interactionPct) ||
      (pairKey(x.a, x.b) < pairKey(y.a, y.b) ? -1 : 1),
  );
}
