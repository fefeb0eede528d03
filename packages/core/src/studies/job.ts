/** The unit of work of every study: one combination forecast at a list of speeds. */

import type { Mesh } from '../assembly/mesh.ts';
import type { Cancellation } from '../base/cancellation.ts';
import type { Combination } from '../combination/combination.ts';
import type { Curve, Fidelity } from '../forecast/curve.ts';
import { forecast } from '../forecast/forecast.ts';

/** Plain and serialisable, so that any thread can run it; the same job gives the same curve wherever it runs. */
export interface StudyJob {
  readonly combination: Combination;
  /** Speeds [1/min], rising. */
  readonly rpm: readonly number[];
  /** Default `representative`. */
  readonly fidelity?: Fidelity;
  /** Default the mesh of a forecast. */
  readonly mesh?: Mesh;
}

/** What a caller may ask of jobs under way. */
export interface JobControl {
  /** Once aborted, no job is begun. */
  readonly signal?: Cancellation;
  /** Called after each job with jobs done and jobs in all. */
  readonly onProgress?: (done: number, total: number) => void;
}

/**
 * Runs jobs, in any order and on any thread. The curves come back in the order of the jobs; a job that an abort kept from
 * running is null, so that a study can report what it has.
 */
export type RunJobs = (jobs: readonly StudyJob[], control?: JobControl) => Promise<readonly (Curve | null)[]>;

/** Runs one job. */
export function runJob({ combination, ...options }: StudyJob): Curve {
  return forecast(combination, options);
}

/** Runs jobs one after another on this thread, letting others have a turn in between. */
export const runJobsHere: RunJobs = async (jobs, control = {}) => {
  const curves: (Curve | null)[] = jobs.map(() => null);
  for (let i = 0; i < jobs.length; i++) {
    await Promise.resolve();
    if (control.signal?.aborted === true) break;
    curves[i] = runJob(jobs[i]);
    control.onProgress?.(i + 1, jobs.length);
  }
  return curves;
};
