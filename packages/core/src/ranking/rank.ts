/** Ranks changes of a combination: alone, in pairs, together and within a budget, with what isn't known of each gain. */

import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { nextTurn } from '../base/turn.ts';
import { VERSION } from '../base/version.ts';
import { accessOf } from '../changes/access.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import { assignedValues } from '../changes/assignedValues.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { DYNO, type Dyno, resolvablePct } from '../dyno/dynoResolution.ts';
import { bandMean, type SpeedBand } from '../forecast/band.ts';
import type { Fidelity } from '../forecast/curve.ts';
import { limitBreaches } from '../forecast/limits.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import { runJobsHere, type StudyControl } from '../studies/job.ts';
import { withModelError } from '../uncertainty/gainError.ts';
import { pairedDraws, spreadOf } from '../uncertainty/pairedDraws.ts';
import {
  askFirst,
  expectedFirst,
  expectedLater,
  measureResponses,
  type Responses,
} from '../uncertainty/responses.ts';
import { responseWorld } from '../uncertainty/responseWorld.ts';
import { speedSpreads } from '../uncertainty/speedSpread.ts';
import { type AppliedChange, type Unknown, unknownsOf } from '../uncertainty/unknowns.ts';
import type { Budget } from './bestSubset.ts';
import type { MeasureFirst } from './firstMeasurement.ts';
import { measureFirst } from './measureFirst.ts';
import { rankChanges } from './rankedChanges.ts';
import { pairUp, rankPairs } from './rankedPairs.ts';
import { MOST_TRIES, rankSets } from './rankedSets.ts';
import type { RankedChange, RankedPair, RankingResult } from './rankingResult.ts';
import { rankSpeeds } from './rankSpeeds.ts';
import { BASELINE, changeKey, pairKey, type RankStudy } from './rankStudy.ts';
import { type TestCandidate, testOrder } from './testOrder.ts';
import { worthOf } from './worthwhile.ts';

/** What to rank by, and with what means. */
export interface RankOptions extends StudyControl {
  /** Default the band of an inspection. */
  readonly band?: SpeedBand;
  /** Speeds of the gains [1/min], rising; default five over the band, and beyond it where the engine's own band reaches further. */
  readonly rpm?: readonly number[];
  /** What may be spent. */
  readonly budget?: Budget;
  /** The dyno that is to test; default {@link DYNO}. */
  readonly dyno?: Dyno;
  /** Seed of the draws; default 1. */
  readonly seed?: number;
  /** How many cylinders march; default `representative`. */
  readonly fidelity?: Fidelity;
  /** Text of a sheet by the name used in the file. */
  readonly sheet?: SheetSource | undefined;
}

/** All together and the best set, and the sets that turn out to break a limit. */
const LATER = 2 + MOST_TRIES;
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
  const {
    run = runJobsHere,
    sheet,
    signal,
    onProgress,
    fidelity,
    seed = 1,
    dyno = DYNO,
    budget = NO_BUDGET,
  } = options;
  checkNames(changes);
  const resolvable = resolvablePct(dyno);
  const speeds = rankSpeeds(baseline, options);
  const problems: Problem[] = [];
  const applied = changes.flatMap((change): AppliedChange[] => {
    const result = applyChanges(baseline, [change], { sheet });
    if (result.ok)
      return [{ change, combination: result.value, values: assignedValues(baseline, [change], []) }];
    problems.push(...result.problems);
    return [];
  });
  if (problems.length > 0) return { ok: false, problems };

  const queue = new ForecastQueue(run, {
    ...(signal === undefined ? {} : { signal }),
    ...(onProgress === undefined ? {} : { onProgress }),
  });
  const marching = fidelity === undefined ? {} : { fidelity };
  const fine = (name: string, combination: Combination): void =>
    queue.ask(name, { combination, rpm: speeds.gains, ...marching });
  const unknowns = unknownsOf(baseline, applied);
  const world = responseWorld(baseline, changes, unknowns, {
    queue,
    seed,
    rpm: speeds.responses,
    fidelity,
    sheet,
  });
  // First what an interrupted ranking would show, under way while the rest is built.
  fine(BASELINE, baseline.combination);
  for (const { change, combination } of applied) fine(changeKey(change.name), combination);
  const mostPairs = (changes.length * (changes.length - 1)) / 2;
  queue.expect(expectedFirst(world) + mostPairs + expectedLater(world) + LATER);
  queue.begin();
  await nextTurn();
  const pairing = pairUp(baseline, changes, sheet);
  await nextTurn();
  askFirst(world);
  for (const { a, b, combination } of pairing.pairs) world.ask(pairKey(a, b), combination);
  queue.expect(expectedLater(world) + LATER);
  const responses = withModelError(await measureResponses(world, LATER));

  const spreads = speedSpreads(responses, speeds.band, { seed, correlated: unknowns.calibrated });
  const study: RankStudy = {
    baseline,
    changes,
    applied,
    dyno,
    seed,
    speeds,
    queue,
    responses,
    spreads,
    unknowns,
    pairing,
  };
  const ranked = rankChanges(study);
  const pairs = rankPairs(study, ranked);
  const candidates = candidatesOf(study, ranked, pairs);
  const worths = worthOf(candidates, pairs, resolvable);
  const sets = await rankSets(study, ranked, pairs, worths, budget, { ask: fine, sheet });
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
      warnings: [
        ...(queue.curve(BASELINE)?.warnings ?? baseline.combination.warnings),
        ...lostWarnings(study),
        ...pairing.warnings,
        ...stuckWarnings(responses, unknowns.all),
        ...budgetWarnings(changes, budget),
      ],
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

/** Each change as the one rule and the order of tests see it. */
function candidatesOf(
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
    sigmaPct: draws === null ? null : 100 * spreadOf(draws),
    bySpeed: curve.points.map(({ rpm, torqueNm: torque }) => {
      const spread = spreads.baseline(rpm);
      return { rpm, torqueNm: torque, sigmaNm: spread === null ? null : torque * spread.torque };
    }),
  };
}

function lostWarnings({ queue, changes }: RankStudy): readonly Warning[] {
  const { leftOut } = queue;
  const curves = [
    { key: BASELINE, what: 'the engine as it is', so: 'so that nothing can be ranked' },
    ...changes.map(({ name }) => ({
      key: changeKey(name),
      what: `'${name}'`,
      so: 'so that it is not ranked',
    })),
  ];
  return curves.flatMap(({ key, what, so }): Warning[] => {
    const speeds = leftOut.filter(({ curve }) => curve === key).map(({ rpm }) => rpm);
    return speeds.length === 0
      ? []
      : [{ code: 'lost', path: '', message: `no figures of ${what} at ${speeds.join(', ')} rpm, ${so}` }];
  });
}

function stuckWarnings({ stuck }: Responses, unknowns: readonly Unknown[]): readonly Warning[] {
  return unknowns
    .filter(({ id }) => stuck.includes(id))
    .map(({ id, path }) => ({
      code: 'unknown-skipped',
      path,
      message: `the engine could not be forecast with ${id} off by its spread, so no uncertainty here contains it`,
    }));
}

function budgetWarnings(changes: readonly Change[], { cost, hours }: Budget): readonly Warning[] {
  const silent = changes.filter(
    (change) => (cost !== null && change.cost === null) || (hours !== null && change.hours === null),
  );
  return silent.map(({ name }) => ({
    code: 'budget-unknown',
    path: '',
    message: `'${name}' states no ${cost !== null ? 'cost' : 'hours'}, so it is in no set that must fit the budget`,
  }));
}
