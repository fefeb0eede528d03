/** What isn't known of one gain, with the means a ranking has for many. */

import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { SpeedBand } from '../forecast/band.ts';
import { standardDeviation } from '../numerics/standardDeviation.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import { runJobsHere, type StudyControl } from '../studies/job.ts';
import { appliedChange } from '../uncertainty/appliedChange.ts';
import { askFirst } from '../uncertainty/askedForecasts.ts';
import { withModelError } from '../uncertainty/gainError.ts';
import { pairedDraws } from '../uncertainty/pairedDraws.ts';
import { expectedLater, measureResponses } from '../uncertainty/responses.ts';
import { responseWorld } from '../uncertainty/responseWorld.ts';
import { type SpreadAt, speedSpreads } from '../uncertainty/speedSpread.ts';
import { unknownsOf } from '../uncertainty/unknowns.ts';
import type { MeasureFirst } from './firstMeasurement.ts';
import { measureFirst } from './measureFirst.ts';
import { responseSpeeds } from './rankSpeeds.ts';

/** One standard deviation of a gain, in shares of the power of the engine as it is [-]. */
export interface GainSpread {
  /** Of mean power over the band; null where a march that it takes was lost. */
  readonly band: number | null;
  /** Of power at a speed of the band [1/min]. */
  readonly at: SpreadAt;
  /** The measurement that would make the gain surest; null where none stands out. */
  readonly measureFirst: MeasureFirst | null;
}

/** What the spread is worked out with. */
export interface GainSpreadOptions extends StudyControl {
  /** Text of a sheet by the name used in the file. */
  readonly sheet?: SheetSource | undefined;
  /** Default 1. */
  readonly seed?: number;
}

/**
 * The spread of a change's gain over a band, from the estimates, the errors of measuring, what a calibration left open and the model's
 * own error, by paired draws as in a ranking. Null where an abort came first, or the change can't be applied.
 */
export async function gainSpread(
  baseline: Baseline,
  change: Change,
  band: SpeedBand,
  { run = runJobsHere, sheet, seed = 1, ...control }: GainSpreadOptions,
): Promise<GainSpread | null> {
  const applied = appliedChange(baseline, change, { sheet });
  if (!applied.ok) return null;
  const unknowns = unknownsOf(baseline, [applied.value]);
  const queue = new ForecastQueue(run, control);
  const rpm = responseSpeeds(band);
  const world = responseWorld(baseline, [change], unknowns, { queue, seed, rpm, fidelity: undefined, sheet });
  askFirst(world);
  queue.expect(expectedLater(world));
  const responses = withModelError(await measureResponses(world));
  if (!responses.complete) return null;
  const draws = { seed, correlated: unknowns.calibrated };
  const at = speedSpreads(responses, band, draws).changes.get(change.name) ?? ((): null => null);
  const [candidate] = responses.candidates;
  if (responses.baseline === null || candidate === null) return { band: null, at, measureFirst: null };
  const { gains } = pairedDraws(responses.baseline, [candidate], draws);
  const first = measureFirst(responses.baseline, [candidate], unknowns.all);
  return { band: standardDeviation(gains[0]) / 100, at, measureFirst: first };
}
