/** Who computes: threads of this machine, or whoever works on a queue. */
import { availableParallelism } from 'node:os';
import type { StudyControl } from '@valvetide/core';
import { misuse } from '../commandFailure.ts';
import type { Flags, Invocation } from '../commandSpec.ts';
import { studyProgress } from '../output/progress.ts';
import { keptRun, type Tally } from '../parts/keptRun.ts';
import { queueAddress } from '../queue/queueAddress.ts';
import { plain } from '../render/plain.ts';
import type { JobRunner } from '../workers/jobRunner.ts';
import { keepHeapLean } from '../workers/leanHeap.ts';
import { detailOf, refuse, whole } from './readFlags.ts';
import { isShared, shardOf, storeOf } from './shares.ts';

/** `--workers`, or one a core. */
export function workersOf(flags: Flags): number {
  const text = flags.text('workers');
  if (text === undefined) return availableParallelism();
  const workers = Number(text);
  if (!(/^\d{1,3}$/.test(text) && workers >= 1 && workers <= 256))
    throw refuse('workers', flags, 'write how many threads, 1 to 256');
  return workers;
}

/** Runs a study on the workers asked for, with progress, until it is done or Ctrl-C comes. */
export async function withWorkers<Result>(
  invocation: Invocation,
  study: (control: Required<StudyControl>, tally: Tally | null) => Promise<Result>,
): Promise<Result> {
  const { flags, io } = invocation;
  const shard = shardOf(flags);
  if (isShared(flags)) keepHeapLean();
  const store = storeOf(invocation, shard);
  const runner = await runnerOf(invocation);
  const kept = store === null ? null : keptRun(runner.run, store, shard);
  const progress = studyProgress(io, detailOf(flags));
  try {
    const control = { signal: io.watchForStop(), onProgress: progress.report };
    return await study({ ...control, run: kept?.run ?? runner.run }, kept?.tally ?? null);
  } finally {
    progress.clear();
    await runner.close();
  }
}

/** A server that is begun anew, and its machine with it, is back by then [s]. */
const USUAL_WAIT = 600;

/** Refuses `--wait` where there is no server to wait for. */
export function forbidIdleWait(flags: Flags): void {
  if (flags.text('queue') === undefined && flags.text('wait') !== undefined)
    throw misuse('--wait is for a server that went away: it needs --queue');
}

/** Threads of this machine, so many at the most, or whoever works on a queue. */
export async function runnerOf(
  { flags, io, core }: Invocation,
  most: number = Number.POSITIVE_INFINITY,
): Promise<JobRunner> {
  const queue = flags.text('queue');
  const seconds = whole(flags, 'wait', 1, 1_000_000);
  if (queue === undefined) {
    forbidIdleWait(flags);
    return core.openRunner(Math.min(workersOf(flags), most));
  }
  for (const other of ['workers', 'shard'])
    if (flags.text(other) !== undefined)
      throw misuse(`--queue and --${other} can't be used together: the work is done by valvetide work`);
  return core.openQueueRunner(queueAddress(queue, io.env), (line) => io.stderr.write(`${plain(line)}\n`), {
    seconds: seconds ?? USUAL_WAIT,
    journal: flags.text('journal') ?? null,
  });
}
