/** Chooses from a shelf: the best of all the builds it allows, with what they share, cost and can't be told apart by. */

import type { Fidelity } from '../assembly/symmetry.ts';
import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Problem } from '../combination/problem.ts';
import { bandMean, type SpeedBand } from '../forecast/band.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import { rankSpeeds } from '../ranking/rankSpeeds.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import { runJobsHere, type StudyControl } from '../studies/job.ts';
import { buildForecasts } from './buildForecasts.ts';
import { keyOf } from './buildSpace.ts';
import { MOST_TRIED, type NoBuild } from './cheapestBuild.ts';
import type { ChoiceResult, ChosenBuild, PricedBuild, SearchAccount, Taken } from './choiceResult.ts';
import { topBuilds } from './chosenBuilds.ts';
import type { Build } from './effectModel.ts';
import { expected } from './effectModel.ts';
import { findBest, type Judge, type Judged, type SearchOutcome } from './findBest.ts';
import { frontierHopes, frontierOf } from './frontier.ts';
import { groupEffects } from './groupEffects.ts';
import type { Shelf, ShelfAim } from './shelf.ts';
import { changesOf } from './shelfRules.ts';
import { neverTaken, priceOf, type ShelfSpace, shelfSpace } from './shelfSpace.ts';
import { gainsByAim, weightedGain } from './worth.ts';

/** What to choose by, and with what means. */
export interface ChooseOptions extends StudyControl {
  /** Band of the mean power where the shelf names no aims; default the band of an inspection. */
  readonly band?: SpeedBand;
  /** Speeds [1/min], rising; default five over the band of each aim. */
  readonly rpm?: readonly number[];
  /** How many of the best are to be known; default 5. */
  readonly wanted?: number;
  /** Builds forecast at most in the search; default 400. */
  readonly most?: number;
  /** Seed of the search and of the draws; default 1. */
  readonly seed?: number;
  /** How many cylinders march; default `representative`. */
  readonly fidelity?: Fidelity;
  /** Text of a sheet by the name used in the file. */
  readonly sheet?: SheetSource | undefined;
}

/** Rounds for the frontier of money, and builds in each. */
const FRONTIER_ROUNDS = 2;
const FRONTIER_ROUND = 8;

/**
 * Finds the best builds of a shelf. Few builds are all forecast; of many, a spread of first builds is, then by a model of the
 * choices' effects those that may be better than the best, until hardly any unseen one is to be expected.
 *
 * @throws {@link DomainError} where wanted, most, band or speeds make no sense
 *
 * @example
 * ```ts
 * const read = readShelf(shelfText);
 * if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
 * const chosen = await choose(baseline, read.value, { band: { fromRpm: 3500, toRpm: 6500 } });
 * if (chosen.ok) console.log(chosen.value.builds[0].choices, chosen.value.search.forecast);
 * ```
 */
export async function choose(
  baseline: Baseline,
  shelf: Shelf,
  options: ChooseOptions = {},
): Promise<Result<ChoiceResult, Problem>> {
  const { run = runJobsHere, sheet, signal, fidelity, seed = 1 } = options;
  const { wanted, most } = countsOf(options);
  const aims = aimsOf(baseline, shelf, options);
  const rpm = options.rpm ?? speedsOf(baseline, aims);
  const band = bandAround(aims);
  const problems = problemsOf(baseline, shelf, sheet);
  if (problems.length > 0) return { ok: false, problems };
  const shelved = shelfSpace(baseline, shelf, sheet);
  if (typeof shelved === 'string') return { ok: false, problems: [nothingFits(baseline, shelved)] };

  const queue = new ForecastQueue(run, options);
  const forecast = buildForecasts({ baseline, shelved, aims, rpm, fidelity, sheet, queue, signal });
  const { judge, curveOf } = forecast;
  const outcome = await findBest(shelved.space, judge, { seed, wanted, most });
  const base = forecast.base();
  const judged =
    outcome.complete && base !== null ? await alongFrontier(outcome, shelved, judge) : outcome.judged;

  const priced = (build: Build): PricedBuild | null => {
    const curve = curveOf(build);
    return base === null || curve === null ? null : pricedBuild(shelved, build, { base, curve }, aims);
  };
  const kept = keptBestFirst(judged);
  const forecasts = queue.asked;
  const means = { shelved, aims, band, seed, fidelity, sheet, queue, curveOf, priced };
  const builds = base === null ? [] : await topBuilds(baseline, kept.slice(0, wanted), { ...means, base });
  return {
    ok: true,
    value: {
      schemaVersion: 1,
      program: { name: 'valvetide', version: VERSION },
      combination: baseline.combination.name,
      seed,
      complete: outcome.complete && queue.complete,
      aims,
      limits: shelf.limits,
      band,
      rpm,
      baseline: base === null ? null : meanFigures(base, band),
      builds,
      shared: sharedByTied(builds),
      frontier: pricedFrontier(kept.flatMap((build) => priced(build) ?? [])),
      effects: groupEffects(shelved, judged, outcome.model),
      search: account(shelved, { ...outcome, judged }, forecast.impossible(), queue.asked - forecasts),
      assumed: baseline.combination.assumed,
      warnings: base?.warnings ?? baseline.combination.warnings,
      leftOut: queue.leftOut,
    },
  };
}

/** How many builds are wanted, and forecast at most. */
function countsOf({ wanted = 5, most = 400 }: ChooseOptions): { wanted: number; most: number } {
  if (!(wanted >= 1 && wanted <= 20)) throw new DomainError('wanted', wanted, '1 to 20');
  if (!(most >= 10)) throw new DomainError('most', most, '10 or more');
  return { wanted, most };
}

/** From the lowest speed that an aim looks at to the highest. */
function bandAround(aims: readonly ShelfAim[]): SpeedBand {
  return {
    fromRpm: Math.min(...aims.map(({ band }) => band.fromRpm)),
    toRpm: Math.max(...aims.map(({ band }) => band.toRpm)),
  };
}

/** Builds that keep the limits, those of most worth first. */
function keptBestFirst(judged: readonly Judged[]): readonly Build[] {
  return judged
    .flatMap(({ build, verdict }) => (verdict?.keepsLimits === true ? [{ build, worth: verdict.worth }] : []))
    .sort((a, b) => b.worth - a.worth)
    .map(({ build }) => build);
}

/** What all builds that can't be told from the best have in common. */
function sharedByTied(builds: readonly ChosenBuild[]): readonly Taken[] {
  const tied = builds.filter(({ tieGroup }) => tieGroup === 1);
  return (tied[0]?.choices ?? []).filter(({ choice }, g) =>
    tied.every(({ choices }) => choices[g].choice === choice),
  );
}

/** The builds that gain most for their money, of those whose cost is known. */
function pricedFrontier(builds: readonly PricedBuild[]): readonly PricedBuild[] {
  const affordable = builds.flatMap((build) =>
    build.cost === null ? [] : [{ build, gain: build.gainPct, cost: build.cost }],
  );
  return frontierOf(affordable).map(({ build }) => build);
}

/** A build with what it gains by its forecast, and what it costs. */
function pricedBuild(
  { groups }: ShelfSpace,
  build: Build,
  { base, curve }: { readonly base: WholeCurve; readonly curve: WholeCurve },
  aims: readonly ShelfAim[],
): PricedBuild {
  return {
    choices: build.map((level, g) => takenOf(groups, g, level)),
    gainPct: weightedGain(gainsByAim(base, curve, aims), aims),
    ...priceOf(changesOf(groups, build)),
  };
}

function takenOf(groups: ShelfSpace['groups'], g: number, level: number): Taken {
  return { group: groups[g].name, choice: groups[g].levels[level]?.name ?? null };
}

/** What was judged, with builds that may move the frontier of money judged besides. */
async function alongFrontier(
  { judged, model, listed }: SearchOutcome,
  { groups }: ShelfSpace,
  judge: Judge,
): Promise<readonly Judged[]> {
  if (model === null || listed === null) return judged;
  const costOf = (build: Build): number | null => priceOf(changesOf(groups, build)).cost;
  const all = [...judged];
  for (let round = 0; round < FRONTIER_ROUNDS; round++) {
    const known = new Set(all.map(({ build }) => keyOf(build)));
    const frontier = frontierOf(
      all.flatMap(({ build, verdict }) => {
        const cost = costOf(build);
        return cost === null || verdict?.keepsLimits !== true ? [] : [{ cost, gain: verdict.worth }];
      }),
    );
    const unseen = listed.flatMap((build) => {
      const cost = known.has(keyOf(build)) ? null : costOf(build);
      return cost === null ? [] : [{ build, cost, ...expected(model, build) }];
    });
    const hopes = frontierHopes(frontier, unseen, FRONTIER_ROUND);
    if (hopes.length === 0) break;
    const verdicts = await judge(hopes);
    hopes.forEach((build, i) => {
      const verdict = verdicts[i];
      if (verdict !== undefined) all.push({ build, verdict });
    });
  }
  return all;
}

function aimsOf(baseline: Baseline, shelf: Shelf, options: ChooseOptions): readonly ShelfAim[] {
  if (shelf.aims.length > 0) return shelf.aims;
  const { band } = rankSpeeds(baseline, options);
  return [{ band, of: 'power', weighting: 'speed', weight: 1 }];
}

/** Five over the band of each aim. */
function speedsOf(baseline: Baseline, aims: readonly ShelfAim[]): readonly number[] {
  const inBand = aims.flatMap(({ band }) =>
    rankSpeeds(baseline, { band }).gains.filter((n) => n >= band.fromRpm && n <= band.toRpm),
  );
  return [...new Set(inBand)].sort((a, b) => a - b);
}

/** What is wrong with an alternative by itself. */
function problemsOf(
  baseline: Baseline,
  { groups }: Shelf,
  sheet: SheetSource | undefined,
): readonly Problem[] {
  return groups.flatMap(({ alternatives }) =>
    alternatives.flatMap((change) => {
      const applied = applyChanges(baseline, [change], { sheet, effectless: 'allow' });
      return applied.ok ? [] : applied.problems;
    }),
  );
}

function nothingFits({ combination }: Baseline, why: NoBuild): Problem {
  return {
    file: combination.name,
    line: null,
    column: null,
    path: '',
    code: 'nothing-allowed',
    message:
      why === 'none-keeps'
        ? 'no build of the shelf keeps the limits'
        : `of the ${MOST_TRIED} cheapest builds of groups that one rule looks at none keeps the limits; the others were not tried`,
    hint: 'raise a limit, or let a group stay as it is',
  };
}

function meanFigures({ points }: WholeCurve, band: SpeedBand): NonNullable<ChoiceResult['baseline']> {
  const { powerKw, torqueNm } = bandMean(points, band);
  return { bandPowerKw: powerKw, bandTorqueNm: torqueNm };
}

function account(
  shelved: ShelfSpace,
  { judged, listed, enumerated, missing, model }: SearchOutcome,
  impossible: number,
  forUncertainty: number,
): SearchAccount {
  const square = model?.missed.reduce((sum, miss) => sum + miss * miss, 0) ?? 0;
  const kept = judged.filter(({ verdict }) => verdict?.keepsLimits === true).length;
  return {
    builds: shelved.size,
    withinLimits: listed?.length ?? null,
    never: neverTaken(shelved, listed).map(([g, level]) => takenOf(shelved.groups, g, level)),
    forecast: judged.length - impossible,
    refused: judged.length - impossible - kept,
    impossible,
    forUncertainty,
    enumerated,
    missing,
    modelErrorPct: model === null ? null : Math.sqrt(square / model.missed.length),
  };
}
