/** Study jobs on as many threads as asked for; the curves are the same on any number of them. */
import { type Curve, type RunJobs, runJobsHere, type StudyJob, splitJob } from '@valvetide/core';
import type { Tinypool } from 'tinypool';

/** A way to run jobs, to be closed when nothing more is to be run. */
export interface JobRunner {
  readonly run: RunJobs;
  close(): Promise<void>;
}

export interface RunnerOptions {
  /** The module that a thread runs. */
  readonly worker?: URL;
  /** Whole jobs, each on a thread other than this one, which stays free to answer; default false. */
  readonly apart?: boolean;
}

/** So many of the last jobs a thread are cut into their speeds: threads would else end as far apart as a whole job takes. */
const LAST_JOBS = 4;

const WORKER = new URL('./worker.js', import.meta.url);

/**
 * One worker is this thread itself; more are threads of their own, begun with the first jobs. What begins them is loaded here: jobs asked
 * for before a long piece of planning would else be sent only after it.
 */
export async function openRunner(
  workers: number,
  { worker = WORKER, apart = false }: RunnerOptions = {},
): Promise<JobRunner> {
  return workers > 1 || apart ? pooled(workers, worker, apart) : { run: runJobsHere, close: async () => {} };
}

/** Threads, and what became of one of them that ended by itself. */
interface Pool {
  readonly threads: Tinypool;
  /** Looks at threads that were begun since. */
  readonly watch: () => void;
  ended: Error | undefined;
}

async function pooled(workers: number, worker: URL, apart: boolean): Promise<JobRunner> {
  // Most commands start no threads, and need not load what does.
  const { Tinypool } = await import('tinypool');
  let opened: Pool | undefined;
  const close = async (): Promise<void> => {
    const closing = opened;
    opened = undefined;
    await closing?.threads.destroy();
  };
  const open = (most: number): Pool => {
    const minThreads = Math.min(workers, most);
    const threads = new Tinypool({ filename: worker.href, name: 'work', minThreads, maxThreads: workers });
    return watched(threads, () => void close());
  };
  const run: RunJobs = async (jobs, { signal, onProgress, onCurve, onRoom } = {}) => {
    if (signal?.aborted === true || jobs.length === 0) return jobs.map(() => null);
    opened ??= open(Math.max(jobs.length, jobs[0].rpm.length));
    const used = opened;
    const stopped = (): boolean => signal?.aborted === true;
    const stop = (): void => void close();
    // A curve takes seconds: threads are ended at once, not asked to finish.
    if (signal instanceof AbortSignal) signal.addEventListener('abort', stop, { once: true });
    let done = 0;
    const onThread = async (job: StudyJob): Promise<Curve | null> => {
      try {
        const curve: Promise<Curve> = used.threads.run(job);
        used.watch();
        return await curve;
      } catch (error) {
        if (stopped()) return null;
        throw used.ended ?? error;
      }
    };
    const one = async (job: StudyJob, i: number): Promise<Curve | null> => {
      const isLast = i >= jobs.length - LAST_JOBS * workers;
      const { pieces, join } = isLast && !apart ? splitJob(job) : { pieces: [job], join: firstOf };
      const curve = join(await Promise.all(pieces.map(onThread)));
      if (curve === null) return null;
      done += 1;
      onCurve?.(curve, i);
      onProgress?.(done, jobs.length);
      // A thread is about to have nothing to do.
      if (done === jobs.length - workers) onRoom?.();
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

/** Threads that were begun; `onEnd` is called where one ended by itself. */
function watched(threads: Tinypool, onEnd: () => void): Pool {
  // A thread without a job that fails has nobody to tell; those with one reject it.
  threads.on('error', () => {});
  const begun: Pool = {
    threads,
    ended: undefined,
    watch: threadWatch(threads, (code) => {
      begun.ended ??= new Error(`a thread ended by itself, with code ${code}`);
      onEnd();
    }),
  };
  return begun;
}

/** Calls `onEnd`, with its exit code, where a thread of the pool ended by itself without an error: the pool would wait for it without end. */
function threadWatch(pool: Tinypool, onEnd: (code: number) => void): () => void {
  const seen = new WeakSet<object>();
  return () => {
    for (const thread of pool.threads) {
      if (seen.has(thread)) continue;
      seen.add(thread);
      // Those that the pool ends, and those that failed, are no longer among its own by then.
      thread.once('exit', (code: number) => {
        if (pool.threads.includes(thread)) onEnd(code);
      });
    }
  };
}

function firstOf([curve]: readonly (Curve | null)[]): Curve | null {
  return curve;
}
