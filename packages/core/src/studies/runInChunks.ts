/** Many jobs with few of them in memory. */
import type { Curve } from '../forecast/curve.ts';
import type { JobControl, RunJobs, StudyJob } from './job.ts';

/** Jobs made and run at a time: enough for many threads, few enough to hold. */
const CHUNK = 128;
/** Chunks begun and not handed over: one lost machine must not keep the others from going on. */
const MOST_CHUNKS = 4;

/** A chunk under way. */
interface Begun {
  readonly from: number;
  readonly length: number;
  readonly curves: Promise<readonly (Curve | null)[]>;
  /** There is room for the next chunk, or this one is done. */
  readonly room: Promise<void>;
  isDone: boolean;
}

/**
 * Runs jobs that are made when their turn comes, and hands over each curve with its index, in the order of the jobs, to be
 * reduced and forgotten. Null: an abort came first, or the job was left to others. The next chunk begins when one is done,
 * or when whoever runs them says that there is room. After an abort no more jobs are made, and nothing is handed over for those.
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
  let [asked, done] = [0, 0];
  const running: Begun[] = [];
  const begin = (chunk: readonly StudyJob[]): Begun => {
    let onRoom = (): void => {};
    const told = new Promise<void>((resolve) => {
      onRoom = resolve;
    });
    let so = 0;
    const progress = (more: number): void => {
      done += more - so;
      so = more;
    };
    const curves = run(chunk, {
      ...(signal === undefined ? {} : { signal }),
      onRoom,
      onProgress: (more) => {
        progress(more);
        onProgress?.(done, total);
      },
    });
    const ended = curves.then(() => {
      begun.isDone = true;
      progress(chunk.length);
    });
    const room = Promise.race([told, ended]);
    // A failure is met where the curves are awaited, in their order.
    ended.catch(() => {});
    const begun: Begun = { from: asked, length: chunk.length, curves, room, isDone: false };
    asked += chunk.length;
    return begun;
  };
  const handOver = async ({ from, length, curves }: Begun): Promise<void> => {
    const got = await curves;
    for (let i = 0; i < length; i++) take(got[i] ?? null, from + i);
  };
  const flush = async (chunk: readonly StudyJob[]): Promise<void> => {
    if (running.length === MOST_CHUNKS) await handOver(running[0]).then(() => running.shift());
    const begun = begin(chunk);
    running.push(begun);
    await begun.room;
    while (running.length > 0 && running[0].isDone) {
      await handOver(running[0]);
      running.shift();
    }
  };
  let chunk: StudyJob[] = [];
  for (const job of jobs) {
    if (signal?.aborted === true) break;
    chunk.push(job);
    if (chunk.length < CHUNK) continue;
    await flush(chunk);
    chunk = [];
  }
  if (chunk.length > 0 && signal?.aborted !== true) await flush(chunk);
  for (const begun of running) await handOver(begun);
}
