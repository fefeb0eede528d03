/** What each thread of the pool runs: one job to its curve. */
import { type Curve, runJob, type StudyJob } from '@valvetide/core';

/** Called by name from the pool. */
export function work(job: StudyJob): Curve {
  return runJob(job);
}
