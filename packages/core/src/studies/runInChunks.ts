/** Many jobs with few of them in memory. */
import type { Curve } from '../forecast/curve.ts';
import type { JobControl, RunJobs, StudyJob } from './job.ts';

/** Jobs made and run at a time: enough for many threads, few enough to hold. */
const CHUNK = 256;

/**
 * Runs jobs that are made when their turn comes, and hands over each curve with its index, in the order of the jobs, to be
 * reduced and forgotten. Null: an abort came first, or the job was left to others.
 *
 * @param total - jobs in all, for progress
 */
export async function runInChunks(
  run: RunJobs,
  jobs: Iterable<StudyJob>,
  total: number,
  { signal, onProgress }: JobControl,
  take: (curve: Curve | null, index: number) => void,
): Promise<void> {
  let done = 0;
  let chunk: StudyJob[] = [];
  const flush = async (): Promise<void> => {
    const begun = chunk;
    chunk = [];
    const curves = await run(begun, {
      ...(signal === undefined ? {} : { signal }),
      onProgress: (more) => onProgress?.(done + more, total),
    });
    for (let i = 0; i < begun.length; i++) take(curves[i] ?? null, done + i);
    done += begun.length;
  };
  for (const job of jobs) {
    chunk.push(job);
    if (chunk.length === CHUNK) await flush();
  }
  if (chunk.length > 0) await flush();
}
