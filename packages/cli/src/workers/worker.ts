/** What each thread of the pool runs: one job to its curve. */
import type { Curve, StudyJob } from '@valvetide/core';
// The part that reads files is left out: it takes longer to load than many a job to run.
import { runJob } from '@valvetide/core/job';

/** Called by name from the pool. */
export function work(job: StudyJob): Curve {
  return runJob(job);
}
