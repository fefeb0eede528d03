/** Study jobs on as many threads as asked for; the curves are the same on any number of them. */
import { type Curve, type RunJobs, runJobsHere, type StudyJob, splitJob } from '@valvetide/core';
import { Tinypool } from 'tinypool';

/** A way to run jobs, to be closed when nothing more is to be run. */
export interface JobRunner {
  readonly run: RunJobs;
  close(): Promise<void>;
}

/** Fewer jobs than this a thread leave some of them idle at the end, so that each is cut into its speeds. */
const FEW_JOBS = 4;

/** The module that a thread runs. */
const WORKER = new URL('./worker.js', import.meta.url);

/** One worker is this thread itself; more are threads of their own, begun when first needed. */
export function openRunner(workers: number, worker: URL = WORKER): JobRunner {
  return workers > 1 ? pooled(workers, worker) : { run: runJobsHere, close: async () => {} };
}

function pooled(workers: number, worker: URL): JobRunner {
  let pool: Tinypool | undefined;
  const close = async (): Promise<void> => {
    const open = pool;
    pool = undefined;
    await open?.destroy();
  };
  const run: RunJobs = async (jobs, { signal, onProgress, onCurve } = {}) => {
    if (signal?.aborted === true || jobs.length === 0) return jobs.map(() => null);
    if (pool === undefined) {
      pool = new Tinypool({
        filename: worker.href,
        name: 'work',
        minThreads: Math.min(workers, Math.max(jobs.length, jobs[0].rpm.length)),
        maxThreads: workers,
      });
      // A thread without a job that fails has nobody to tell; those with one reject it.
      pool.on('error', () => {});
    }
    const threads = pool;
    const stopped = (): boolean => signal?.aborted === true;
    const stop = (): void => void close();
    // A curve takes seconds: threads are ended at once, not asked to finish.
    if (signal instanceof AbortSignal) signal.addEventListener('abort', stop, { once: true });
    let done = 0;
    const onThread = async (job: StudyJob): Promise<Curve | null> => {
      try {
        return await threads.run(job);
      } catch (error) {
        if (stopped()) return null;
        throw error;
      }
    };
    const one = async (job: StudyJob, i: number): Promise<Curve | null> => {
      const { pieces, join } =
        jobs.length < FEW_JOBS * workers ? splitJob(job) : { pieces: [job], join: firstOf };
      const curve = join(await Promise.all(pieces.map(onThread)));
      if (curve === null) return null;
      done += 1;
      onCurve?.(curve, i);
      onProgress?.(done, jobs.length);
      return curve;
    };
    try {
      return await Promise.all(jobs.map(one));
    } finally {
      if (signal instanceof AbortSignal) signal.removeEventListener('abort', stop);
    }
  };
  return { run, close };
}

function firstOf([curve]: readonly (Curve | null)[]): Curve | null {
  return curve;
}
