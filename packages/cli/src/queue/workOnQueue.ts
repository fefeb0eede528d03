/** Takes forecasts from a queue and does them, until told to stop. */
import type { StudyJob } from '@valvetide/core';
import type { Job, Worker } from 'bullmq';
import { plainShort } from '../render/plain.ts';
import { version } from '../version.ts';
import type { JobRunner } from '../workers/jobRunner.ts';
import type { QueueAddress } from './queueAddress.ts';
import { connectQueue, QUEUE_NAME, type QueueConnection } from './queueConnection.ts';

/** A worker that was not heard of for so long has lost its job [ms]; another then takes it. */
const LOST_AFTER = 10_000;
/** How often that is looked for [ms]. */
const LOOK_EVERY = 3000;
/** A job that took so many workers with it is given up: it would take the others too. */
const MOST_LOSSES = 10;
/** Forecasts under way may go on for so long after a wish to stop, then they are handed back [ms]. */
const GRACE = 20_000;
/** What is told the server at the end may take so long: it may go away meanwhile [ms]. */
const FAREWELL = 5000;

export interface WorkOptions {
  /** Forecasts at a time. */
  readonly workers: number;
  /** Runs one forecast here; closed by whoever opened it. */
  readonly runner: JobRunner;
  /** The first wish to stop. */
  readonly signal: AbortSignal;
  /** Ends after so many seconds with nothing to do; never where null. */
  readonly idleSeconds: number | null;
  readonly onDone: (done: number) => void;
  readonly say: (line: string) => void;
}

/** What came of it. */
export interface WorkDone {
  readonly done: number;
  /** Begun and left to others. */
  readonly handedBack: number;
  /** The version that asks for forecasts which this one may not do; null where it is the same. */
  readonly otherVersion: string | null;
}

export async function workOnQueue(address: QueueAddress, options: WorkOptions): Promise<WorkDone> {
  const { workers, signal, idleSeconds, say } = options;
  const connection = await connectQueue(address, say);
  const { library, redis, complain, close } = connection;
  const shift = beginShift(library, options);
  const worker = new library.Worker<StudyJob>(QUEUE_NAME, shift.forecast, {
    connection: redis,
    concurrency: workers,
    lockDuration: LOST_AFTER,
    stalledInterval: LOOK_EVERY,
    maxStalledCount: MOST_LOSSES,
  });
  worker.on('error', complain);
  // Counted once it is with the server: one that came too late was done by somebody else.
  worker.on('completed', shift.count);
  worker.on('failed', (_, error) => say(`a forecast failed: ${plainShort(error.message, 200)}`));
  if (signal.aborted) shift.stop();
  signal.addEventListener('abort', shift.stop, { once: true });
  const idling = setInterval(() => {
    if (idleSeconds !== null && shift.isIdleFor(1000 * idleSeconds)) shift.stop();
  }, 200);
  try {
    await shift.stopped;
    await leave(worker, connection, shift);
  } finally {
    clearInterval(idling);
    close();
  }
  return shift.done();
}

/** Forecasts taken from the queue one after another, and what came of them. */
interface Shift {
  /** Does one, or hands it back. */
  readonly forecast: (job: Job<StudyJob>, token?: string) => Promise<unknown>;
  readonly count: () => void;
  readonly isIdleFor: (milliseconds: number) => boolean;
  readonly stop: () => void;
  readonly stopped: Promise<void>;
  /** Gives up what is under way: others take it. */
  readonly handBack: () => void;
  readonly done: () => WorkDone;
}

function beginShift(library: QueueConnection['library'], { runner, onDone }: WorkOptions): Shift {
  const giveUp = new AbortController();
  let [done, handedBack, busy] = [0, 0, 0];
  let otherVersion: string | null = null;
  let idleSince = Date.now();
  let stop = (): void => {};
  const stopped = new Promise<void>((resolve) => {
    stop = resolve;
  });
  const refuse = async (job: Job): Promise<void> => {
    otherVersion = job.name;
    await job.updateProgress({ refusedBy: version() });
    stop();
  };
  const forecast = async (job: Job<StudyJob>, token?: string): Promise<unknown> => {
    busy += 1;
    try {
      if (job.name !== version()) await refuse(job);
      const here = otherVersion === null && !giveUp.signal.aborted;
      const [curve] = here ? await runner.run([job.data], { signal: giveUp.signal }) : [null];
      if (curve === null) {
        await job.moveToWait(token);
        handedBack += 1;
        throw new library.WaitingError();
      }
      return curve;
    } finally {
      busy -= 1;
      idleSince = Date.now();
    }
  };
  return {
    forecast,
    count: () => {
      done += 1;
      onDone(done);
    },
    isIdleFor: (milliseconds) => busy === 0 && Date.now() - idleSince >= milliseconds,
    stop,
    stopped,
    handBack: () => giveUp.abort(),
    done: () => ({ done, handedBack, otherVersion }),
  };
}

/** Lets what is under way be done as far as it can be, hands back the rest, and takes leave of the server. */
async function leave(worker: Worker, { answers, close }: QueueConnection, shift: Shift): Promise<void> {
  const there = answers();
  const closed = worker.close(!there);
  // What a server that is away can't be given is done by others once it is back.
  if (!there) close();
  const grace = there && shift.done().otherVersion === null ? GRACE : 0;
  const handing = setTimeout(shift.handBack, grace);
  let farewell: NodeJS.Timeout | undefined;
  const late = new Promise<void>((resolve) => {
    farewell = setTimeout(resolve, grace + FAREWELL);
  });
  try {
    await Promise.race([closed, late]);
  } finally {
    clearTimeout(handing);
    clearTimeout(farewell);
  }
}
