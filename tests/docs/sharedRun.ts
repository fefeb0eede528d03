/** A runner for pages of studies on one engine: each speed of each combination is marched once, whoever asks for it again. */
import { jobKey } from '../../packages/cli/src/parts/jobKey.ts';
import type { Curve } from '../../packages/core/src/forecast/curve.ts';
import { type RunJobs, runJobsHere } from '../../packages/core/src/studies/job.ts';
import { splitJob } from '../../packages/core/src/studies/splitJob.ts';

/** Every speed starts from still gas, so that the curve joined of speeds marched before is the one of all together. */
export function sharedRun(): RunJobs {
  const kept = new Map<string, Curve>();
  return async (jobs, { onProgress } = {}) => {
    const curves: (Curve | null)[] = [];
    for (const job of jobs) {
      const { pieces, join } = splitJob(job);
      const found: (Curve | null)[] = [];
      for (const piece of pieces) {
        const key = jobKey(piece);
        const curve = kept.get(key) ?? (await runJobsHere([piece]))[0];
        if (curve !== null) kept.set(key, curve);
        found.push(curve);
      }
      curves.push(join(found));
      onProgress?.(curves.length, jobs.length);
    }
    return curves;
  };
}
