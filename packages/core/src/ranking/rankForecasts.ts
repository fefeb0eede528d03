/** The forecasts of a ranking: gains in fine cells, responses, and pairs. */
import { nextTurn } from '../base/turn.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import { DYNO } from '../dyno/dynoResolution.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import { runJobsHere } from '../studies/job.ts';
import type { AppliedChange } from '../uncertainty/appliedChange.ts';
import { askFirst, expectedFirst } from '../uncertainty/askedForecasts.ts';
import { withModelError } from '../uncertainty/gainError.ts';
import { expectedLater, measureResponses } from '../uncertainty/responses.ts';
import { responseWorld } from '../uncertainty/responseWorld.ts';
import { speedSpreads } from '../uncertainty/speedSpread.ts';
import { unknownsOf } from '../uncertainty/unknowns.ts';
import { pairUp } from './rankedPairs.ts';
import { MOST_TRIES } from './rankedSets.ts';
import type { RankOptions } from './rankOptions.ts';
import { rankSpeeds } from './rankSpeeds.ts';
import { BASELINE, changeKey, pairKey, type RankStudy } from './rankStudy.ts';

/** All together and the best set, and the sets that turn out to break a limit. */
const LATER = 2 + MOST_TRIES;

/** Runs all but the sets, which hang on what comes of it. */
export async function rankForecasts(
  baseline: Baseline,
  changes: readonly Change[],
  applied: readonly AppliedChange[],
  options: RankOptions,
): Promise<RankStudy> {
  const { run = runJobsHere, sheet, fidelity, seed = 1, dyno = DYNO } = options;
  const speeds = rankSpeeds(baseline, options);
  const queue = new ForecastQueue(run, options);
  const marching = fidelity === undefined ? {} : { fidelity };
  const ask = (name: string, combination: Combination): void =>
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
  ask(BASELINE, baseline.combination);
  for (const { change, combination } of applied) ask(changeKey(change.name), combination);
  const mostPairs = (changes.length * (changes.length - 1)) / 2;
  queue.expect(expectedFirst(world) + mostPairs + expectedLater(world) + LATER);
  queue.begin();
  await nextTurn();
  const pairing = await pairUp(baseline, changes, sheet);
  await nextTurn();
  askFirst(world);
  for (const { a, b, combination } of pairing.pairs) world.ask(pairKey(a, b), combination);
  queue.expect(expectedLater(world) + LATER);
  const responses = withModelError(await measureResponses(world, LATER));
  const spreads = speedSpreads(responses, speeds.band, { seed, correlated: unknowns.calibrated });
  return {
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
    ask,
  };
}
