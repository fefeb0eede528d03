/** What isn't known of one gain, with the means a ranking has for many. */

import { applyChanges } from '../changes/applyChanges.ts';
import { assignedValues } from '../changes/assignedValues.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { SpeedBand } from '../forecast/band.ts';
import { responseSpeeds } from '../ranking/rankSpeeds.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import type { JobControl, RunJobs } from '../studies/job.ts';
import { withModelError } from '../uncertainty/gainError.ts';
import { pairedDraws, spreadOf } from '../uncertainty/pairedDraws.ts';
import { askFirst, expectedLater, measureResponses } from '../uncertainty/responses.ts';
import { responseWorld } from '../uncertainty/responseWorld.ts';
import { type SpreadAt, speedSpreads } from '../uncertainty/speedSpread.ts';
import { unknownsOf } from '../uncertainty/unknowns.ts';

/** One standard deviation of a gain, in shares of the power of the engine as it is [-]. */
export interface GainSpread {
  /** Of mean power over the band; null where a march that it takes was lost. */
  readonly band: number | null;
  /** Of power at a speed of the band [1/min]. */
  readonly at: SpreadAt;
}

/** What the spread is worked out with. */
export interface GainSpreadOptions extends JobControl {
  readonly run: RunJobs;
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
  { run, sheet, seed = 1, ...control }: GainSpreadOptions,
): Promise<GainSpread | null> {
  const applied = applyChanges(baseline, [change], { sheet });
  if (!applied.ok) return null;
  const values = assignedValues(baseline, [change], []);
  const unknowns = unknownsOf(baseline, [{ change, combination: applied.value, values }]);
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
  if (responses.baseline === null || candidate === null) return { band: null, at };
  const { gains } = pairedDraws(responses.baseline, [candidate], draws);
  return { band: spreadOf(gains[0]) / 100, at };
}
