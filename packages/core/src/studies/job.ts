/** The unit of work of every study: one combination forecast at a list of speeds. */

import type { Mesh } from '../assembly/mesh.ts';
import type { Fidelity } from '../assembly/symmetry.ts';
import type { Cancellation } from '../base/cancellation.ts';
import type { Combination } from '../combination/combination.ts';
import type { Curve } from '../forecast/curve.ts';
import { forecast, forecastAsync } from '../forecast/forecast.ts';

/** Plain and serialisable, so that any thread can run it; the same job gives the same curve wherever it runs. */
export interface StudyJob {
  /** The engine to forecast. */
  readonly combination: Combination;
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  /** Default `representative`. */
  readonly fidelity?: Fidelity;
  /** Default the mesh of a forecast. */
  readonly mesh?: Mesh;
  /** Whether the curve is only compared with others run alike, see `ForecastOptions`; default false. */
  readonly onlyCompared?: boolean;
}

/** What a caller may ask of jobs under way. */
export interface JobControl {
  /** An `AbortSignal`: once aborted, no job is begun, and one under way may be dropped. */
  readonly signal?: Cancellation;
  /** Called after each job with jobs done and jobs in all. */
  readonly onProgress?: (done: number, total: number) => void;
}

/** What whoever runs jobs is given with them. */
export interface RunControl extends JobControl {
  /** Called with each curve as soon as it is there, and the index of its job. */
  readonly onCurve?: (curve: Curve, index: number) => void;
  /** To be called once where all these jobs are begun and more could be: the next may then be asked for beside them. */
  readonly onRoom?: () => void;
}

/**
 * Runs jobs, in any order and on any thread. The curves come back in the order of the jobs; a job that an abort kept from
 * running is null, so that a study can report what it has.
 */
export type RunJobs = (jobs: readonly StudyJob[], control?: RunControl) => Promise<readonly (Curve | null)[]>;

/** What every study may be given besides its question. */
export interface StudyControl extends JobControl {
  /** Runs the forecasts; default {@link runJobsHere}, one after another on this thread. */
  readonly run?: RunJobs;
}

/**
 * Runs one job.
 *
 * @example
 * ```ts
 * // In a thread that is sent jobs:
 * parentPort.on('message', (job) => parentPort.postMessage(runJob(job)));
 * ```
 */
export function runJob({ combination, ...options }: StudyJob): Curve {
  return forecast(combination, options);
}

/**
 * Runs jobs one after another on this thread. Others have a turn between speeds, and an abort is seen there; a curve that
 * it cuts short counts as not run.
 *
 * @example
 * ```ts
 * const [before, after] = await runJobsHere([
 *   { combination, rpm: [4000, 5000] },
 *   { combination: changed, rpm: [4000, 5000] },
 * ]);
 * ```
 */
export const runJobsHere: RunJobs = async (jobs, { signal, onProgress, onCurve } = {}) => {
  const curves: (Curve | null)[] = jobs.map(() => null);
  for (const [i, { combination, ...options }] of jobs.entries()) {
    if (signal?.aborted === true) break;
    const curve = await forecastAsync(combination, {
      ...options,
      ...(signal === undefined ? {} : { signal }),
    });
    if (!curve.complete) break;
    curves[i] = curve;
    onCurve?.(curve, i);
    onProgress?.(i + 1, jobs.length);
  }
  return curves;
};
