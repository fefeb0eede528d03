/** Where responses to unknowns come from: forecasts at few speeds and on a coarse mesh. */

import type { Fidelity } from '../assembly/symmetry.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import { marchedText, withOtherFriction } from '../forecast/otherFriction.ts';
import { hasMoreOctane, textBesideOctane, withMoreOctane } from '../forecast/otherOctane.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import type { ForecastQueue } from '../studies/forecastQueue.ts';
import type { StudyJob } from '../studies/job.ts';
import type { ResponseWorld } from './askedForecasts.ts';
import { gainVariance } from './gainError.ts';
import { perturbed } from './perturbed.ts';
import type { Unknowns } from './unknowns.ts';

/**
 * Coarse enough to be quick, in steps and in cells; what that gets wrong is common to all it is compared with. Only where both are cut
 * alike: a runner of two cells or three, as a length passes a whole number of them, moved a single's power by 6 % at its tuned speed.
 * With six and more the next one moves it by 0.05 %.
 */
export const COARSE: Pick<StudyJob, 'mesh' | 'onlyCompared'> = {
  mesh: { intakeCell: 0.06, exhaustCell: 0.15, fewest: 6 },
  onlyCompared: true,
};

/** What forecasts of a response are run with. */
export interface ResponseMeans {
  readonly queue: ForecastQueue;
  readonly seed: number;
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  readonly fidelity: Fidelity | undefined;
  readonly sheet: SheetSource | undefined;
}

/** A forecast that was asked for. */
interface Asked {
  readonly name: string;
  readonly combination: Combination;
}

/**
 * The world of a baseline and its changes. What differs from an engine that was asked for in what rubs alone is not marched again, nor is
 * what has more octane where the other has enough.
 */
export function responseWorld(
  baseline: Baseline,
  changes: readonly Change[],
  unknowns: Unknowns,
  { queue, seed, rpm, fidelity, sheet }: ResponseMeans,
): ResponseWorld {
  const marching = fidelity === undefined ? {} : { fidelity };
  const rubbing = new Map<string, Asked>();
  const knocking = new Map<string, Asked>();
  const ask = (name: string, combination: Combination): void => {
    const [text, beside] = [marchedText(combination), textBesideOctane(combination)];
    const [cycle, less] = [rubbing.get(text), knocking.get(beside)];
    if (cycle !== undefined) {
      queue.derive(name, cycle.name, (curve) => withOtherFriction(curve, cycle.combination, combination));
      return;
    }
    rubbing.set(text, { name, combination });
    const job = { combination, rpm, ...COARSE, ...marching };
    if (less !== undefined && hasMoreOctane(less.combination, combination))
      queue.derive(name, less.name, (curve) => withMoreOctane(curve, combination), job);
    else {
      knocking.set(beside, { name, combination });
      queue.ask(name, job);
    }
  };
  return {
    unknowns: unknowns.all,
    singly: unknowns.calibrated?.ids ?? [],
    changes,
    seed,
    ownVariance: gainVariance,
    queue,
    build: (applied, offsets) => perturbed(baseline, applied, offsets, sheet),
    ask,
  };
}
