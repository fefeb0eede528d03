/** Ranks changes of a combination: alone, in pairs, together and within a budget, with what isn't known of each gain. */

import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Problem } from '../combination/problem.ts';
import { DYNO, resolvablePct } from '../dyno/dynoResolution.ts';
import { bandMean } from '../forecast/band.ts';
import { limitBreaches } from '../forecast/limits.ts';
import { standardDeviation } from '../numerics/standardDeviation.ts';
import { type AppliedChange, appliedChange } from '../uncertainty/appliedChange.ts';
import { pairedDraws } from '../uncertainty/pairedDraws.ts';
import type { Budget } from './bestSubset.ts';
import type { MeasureFirst } from './firstMeasurement.ts';
import { measureFirst } from './measureFirst.ts';
import { candidatesOf } from './rankedCandidates.ts';
import { rankChanges } from './rankedChanges.ts';
import { rankPairs } from './rankedPairs.ts';
import { rankSets } from './rankedSets.ts';
import { rankForecasts } from './rankForecasts.ts';
import type { RankedChange, RankingResult } from './rankingResult.ts';
import type { RankOptions } from './rankOptions.ts';
import { BASELINE, type RankStudy } from './rankStudy.ts';
import { rankWarnings } from './rankWarnings.ts';
import { testOrder } from './testOrder.ts';
import { worthOf } from './worthwhile.ts';

const NO_BUDGET: Budget = { cost: null, hours: null };

/**
 * Ranks changes by their gain in power averaged over a band.
 *
 * @throws {@link DomainError} where two changes have one name, or band, budget or dyno make no sense
 *
 * @example
 * ```ts
 * const read = readChanges(changesText);
 * if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
 * const ranked = await rank(baseline, read.value, { budget: { cost: 2000, hours: null } });
 * if (ranked.ok) for (const { name, bandGainPct } of ranked.value.changes) console.log(name, bandGainPct);
 * ```
 */
export async function rank(
  baseline: Baseline,
  changes: readonly Change[],
  options: RankOptions = {},
): Promise<Result<RankingResult, Problem>> {
  const { sheet, dyno = DYNO, budget = NO_BUDGET } = options;
  checkNames(changes);
  const resolvable = resolvablePct(dyno);
  const problems: Problem[] = [];
  const applied = changes.flatMap((change): AppliedChange[] => {
    const one = appliedChange(baseline, change, { sheet });
    if (one.ok) return [one.value];
    problems.push(...one.problems);
    return [];
  });
  if (problems.length > 0) return { ok: false, problems };

  const study = await rankForecasts(baseline, changes, applied, options);
  const { queue, speeds, seed } = study;
  const ranked = rankChanges(study);
  const pairs = rankPairs(study, ranked);
  const candidates = candidatesOf(study, ranked, pairs);
  const worths = worthOf(candidates, pairs, resolvable);
  const sets = await rankSets(study, ranked, pairs, worths, budget, sheet);
  return {
    ok: true,
    value: {
      schemaVersion: 1,
      program: { name: 'valvetide', version: VERSION },
      combination: baseline.combination.name,
      seed,
      complete: queue.complete,
      band: speeds.band,
      rpm: speeds.gains,
      dyno: { ...dyno, resolvablePct: resolvable },
      spreadRpm: speeds.responses,
      baseline: baselineFigures(study),
      changes: ranked,
      pairs,
      ...sets,
      measureFirst: measuredFirst(study, ranked),
      order: testOrder(candidates, pairs, {
        resolvablePct: resolvable,
        pulls: dyno.pulls,
        bestSet: sets.best?.changes ?? [],
      }),
      assumed: baseline.combination.assumed,
      warnings: rankWarnings(study, budget),
      leftOut: queue.leftOut.map((entry) => ({ ...entry, curve: entry.curve.replaceAll('\n', ' and ') })),
    },
  };
}

function checkNames(changes: readonly Change[]): void {
  if (!(changes.length > 0)) throw new DomainError('changes', changes.length, 'one change or more');
  const names = changes.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) < i);
  if (twice !== undefined) throw new DomainError('changes', twice, 'changes with names of their own');
}

/** Of the changes that may be had and share the place of the best of them. */
function measuredFirst(
  { responses, unknowns }: RankStudy,
  ranked: readonly RankedChange[],
): MeasureFirst | null {
  if (responses.baseline === null || !responses.complete) return null;
  const open = ranked.filter(({ breaches, notModelled }) => breaches.length === 0 && notModelled === null);
  const leaders = open.filter(({ tieGroup }) => tieGroup === open[0].tieGroup);
  const subjects = leaders.flatMap(({ name }) =>
    responses.candidates.filter((subject) => subject?.name === name),
  );
  return measureFirst(
    responses.baseline,
    subjects.filter((subject) => subject !== null),
    unknowns.all,
  );
}

function baselineFigures({
  baseline,
  queue,
  speeds,
  responses,
  spreads,
  seed,
  unknowns,
}: RankStudy): RankingResult['baseline'] {
  const curve = queue.curve(BASELINE);
  if (curve === null) return null;
  const { powerKw, torqueNm } = bandMean(curve.points, speeds.band);
  const draws =
    responses.baseline === null || !responses.complete
      ? null
      : pairedDraws(responses.baseline, [], { seed, correlated: unknowns.calibrated }).baseline;
  return {
    breaches: limitBreaches(baseline.combination, curve),
    bandPowerKw: powerKw,
    bandTorqueNm: torqueNm,
    sigmaPct: draws === null ? null : 100 * standardDeviation(draws),
    bySpeed: curve.points.map(({ rpm, torqueNm: torque }) => {
      const spread = spreads.baseline(rpm);
      return { rpm, torqueNm: torque, sigmaNm: spread === null ? null : torque * spread.torque };
    }),
  };
}
