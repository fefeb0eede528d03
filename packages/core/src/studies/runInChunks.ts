/** Many jobs with few of them in memory. */
import type { Curve } from '../forecast/curve.ts';
import type { JobControl, RunJobs, StudyJob } from './job.ts';

/** Jobs made and run at a time: enough for many threads, few enough to hold. */
const CHUNK = 128;
/** Chunks begun and not handed over: one lost machine must not keep the others from going on. */
const MOST_CHUNKS = 4;

/** Takes a curve with the index of its job; null: an abort came first, or the job was left to others. */
type Take = (curve: Curve | null, index: number) => void;

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
  take: Take,
): Promise<void> {
  const chunks = new Chunks(run, take, {
    ...(signal === undefined ? {} : { signal }),
    onProgress: (done) => onProgress?.(done, total),
  });
  let chunk: StudyJob[] = [];
  for (const job of jobs) {
    if (signal?.aborted === true) break;
    chunk.push(job);
    if (chunk.length < CHUNK) continue;
    await chunks.add(chunk);
    chunk = [];
  }
  if (chunk.length > 0 && signal?.aborted !== true) await chunks.add(chunk);
  await chunks.handOverAll();
}

/** A chunk under way. */
interface Begun {
  readonly from: number;
  readonly length: number;
  readonly curves: Promise<readonly (Curve | null)[]>;
  /** There is room for the next chunk, or this one is done. */
  readonly room: Promise<void>;
  isDone: boolean;
}

interface ChunkControl extends Pick<JobControl, 'signal'> {
  readonly onProgress: (done: number) => void;
}

/** Chunks under way, handed over in the order they were begun. */
class Chunks {
  readonly #running: Begun[] = [];
  readonly #run: RunJobs;
  readonly #take: Take;
  readonly #control: ChunkControl;
  #asked = 0;
  #done = 0;

  constructor(run: RunJobs, take: Take, control: ChunkControl) {
    this.#run = run;
    this.#take = take;
    this.#control = control;
  }

  /** Begins a chunk; resolves when the next may begin. */
  async add(chunk: readonly StudyJob[]): Promise<void> {
    if (this.#running.length === MOST_CHUNKS) await this.#handOverFirst();
    const begun = this.#begin(chunk);
    this.#running.push(begun);
    await begun.room;
    while (this.#running.length > 0 && this.#running[0].isDone) await this.#handOverFirst();
  }

  async handOverAll(): Promise<void> {
    while (this.#running.length > 0) await this.#handOverFirst();
  }

  #begin(chunk: readonly StudyJob[]): Begun {
    const { signal, onProgress } = this.#control;
    let onRoom = (): void => {};
    const told = new Promise<void>((resolve) => {
      onRoom = resolve;
    });
    let counted = 0;
    const count = (doneOfChunk: number): void => {
      this.#done += doneOfChunk - counted;
      counted = doneOfChunk;
    };
    const curves = this.#run(chunk, {
      ...(signal === undefined ? {} : { signal }),
      onRoom,
      onProgress: (doneOfChunk) => {
        count(doneOfChunk);
        onProgress(this.#done);
      },
    });
    const ended = curves.then(() => {
      begun.isDone = true;
      count(chunk.length);
    });
    // A failure is met where the curves are awaited, in their order.
    ended.catch(() => {});
    const room = Promise.race([told, ended]);
    const begun: Begun = { from: this.#asked, length: chunk.length, curves, room, isDone: false };
    this.#asked += chunk.length;
    return begun;
  }

  /** The first is taken off only once it was handed over. */
  async #handOverFirst(): Promise<void> {
    const { from, length, curves } = this.#running[0];
    const got = await curves;
    for (let i = 0; i < length; i++) this.#take(got[i] ?? null, from + i);
    this.#running.shift();
  }
}
