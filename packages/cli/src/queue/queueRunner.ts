/** A study's jobs done by whoever works on a queue: the curves come back as if they had been done here. */
import type { Curve, RunControl, RunJobs, StudyJob } from '@valvetide/core';
import type { Queue, QueueEvents } from 'bullmq';
import { CommandFailure } from '../commandFailure.ts';
import { EXIT } from '../exitCodes.ts';
import { jobKey } from '../parts/jobKey.ts';
import { plainShort } from '../render/plain.ts';
import { version } from '../version.ts';
import type { JobRunner } from '../workers/jobRunner.ts';
import type { QueueAddress } from './queueAddress.ts';
import { connectQueue, QUEUE_NAME, type QueueConnection, whyRefused } from './queueConnection.ts';

/** Jobs under way at the most: enough for many machines, few enough for the server's memory and ours. */
const MOST_AHEAD = 256;
/** A job is tried so often where it fails, and given up where it took so many of its workers with it. */
const ATTEMPTS = 3;
/** Results that nobody fetched, as after a study was ended: so many are kept for so long [s]. */
const KEPT = { age: 3600, count: 1000 };
/** Between two looks at jobs that nothing was heard of [ms]: messages of a server that was away are lost. */
const LOOK_EVERY = 5000;
/** So long nobody has taken a job before that is told [ms]. */
const LONELY_AFTER = 10_000;
/** What is asked of the server at the end may take so long [ms]. */
const FAREWELL = 5000;
/** Messages the server keeps: all those of the jobs under way, and again as many. */
const MOST_MESSAGES = 8 * MOST_AHEAD;

/** A job that was sent, and who waits for it. */
interface Sent {
  readonly job: StudyJob;
  readonly settle: (outcome: Curve | null) => void;
  readonly fail: (error: Error) => void;
}

/** How long a study waits for a server that went away, and what its user may do then. */
export interface QueueWait {
  readonly seconds: number;
  /** Where the forecasts that are done are kept; null where they are not. */
  readonly journal: string | null;
}

/** Connects to a queue, or says in plain words why not. */
export async function openQueueRunner(
  address: QueueAddress,
  say: (line: string) => void,
  wait: QueueWait,
): Promise<JobRunner> {
  const connection = await connectQueue(address, say, wait.seconds);
  const { redis, library, complain } = connection;
  const queue = new library.Queue(QUEUE_NAME, {
    connection: redis,
    streams: { events: { maxLen: MOST_MESSAGES } },
  });
  const events = new library.QueueEvents(QUEUE_NAME, { connection: redis });
  queue.on('error', complain);
  events.on('error', complain);
  const runner = new QueueRunner(address, connection, queue, events, say, wait);
  try {
    await runner.unlessGone(Promise.all([queue.waitUntilReady(), events.waitUntilReady()]));
    return runner;
  } catch (error) {
    await runner.close();
    throw error;
  }
}

class QueueRunner implements JobRunner {
  readonly #queue: Queue;
  readonly #sent = new Map<string, Sent>();
  /** Jobs whose turn has not come. */
  readonly #waiting: (() => void)[] = [];
  /** Versions whose workers refused. */
  readonly #refusing = new Set<string>();
  readonly #say: (line: string) => void;
  readonly #shown: string;
  readonly #connection: QueueConnection;
  readonly #looking: NodeJS.Timeout;
  readonly #close: () => Promise<void>;
  /** What is said once the server was away for too long. */
  readonly #lost: CommandFailure;

  constructor(
    { shown }: QueueAddress,
    connection: QueueConnection,
    queue: Queue,
    events: QueueEvents,
    say: (line: string) => void,
    { seconds, journal }: QueueWait,
  ) {
    this.#queue = queue;
    this.#connection = connection;
    this.#say = say;
    this.#shown = shown;
    this.#lost = new CommandFailure(EXIT.file, [
      `${shown}: no answer for ${seconds} s, given up`,
      journal === null
        ? 'no forecast was kept: --journal keeps them as they are done, in commands that have it'
        : `the forecasts that were done stand in ${plainShort(journal)}: the same command goes on from there`,
    ]);
    connection.gone.addEventListener('abort', () => this.#failAll(this.#lost), { once: true });
    events.on('completed', ({ jobId, returnvalue }) => this.#take(jobId, curveOf(returnvalue)));
    events.on('failed', ({ jobId, failedReason }) =>
      this.#fail(jobId, new Error(`a forecast failed on the queue: ${failedReason}`)),
    );
    // It was there already, as after a study was ended: nothing more may be heard of it.
    events.on('duplicated', ({ jobId }) => void this.#look(jobId));
    events.on('progress', ({ jobId, data }) => {
      if (this.#sent.has(jobId)) this.#noteRefusal(data);
    });
    let heard = Date.now();
    let lonely = false;
    events.on('active', () => {
      heard = Date.now();
      lonely = false;
    });
    this.#looking = setInterval(() => {
      // Questions to a server that is away would pile up.
      if (!connection.answers()) return;
      for (const id of this.#sent.keys()) void this.#look(id);
      if (this.#sent.size === 0) heard = Date.now();
      if (lonely || Date.now() - heard < LONELY_AFTER) return;
      lonely = true;
      void this.#isLeftAlone().then((alone) => {
        if (alone) say(`nobody works on ${shown}: valvetide work --queue ${shown}`);
      });
    }, LOOK_EVERY);
    this.#close = async () => {
      if (!connection.answers()) connection.close();
      await soon([events.close(), queue.close()]);
      connection.close();
    };
  }

  /** What is waited for, or the failure that the server is away for too long. */
  async unlessGone<Value>(wanted: Promise<Value>): Promise<Value> {
    const { gone } = this.#connection;
    const lost = new Promise<never>((_, reject) => {
      gone.addEventListener('abort', () => reject(this.#lost), { once: true });
    });
    return Promise.race([wanted, lost]);
  }

  readonly run: RunJobs = async (jobs, { signal, onProgress, onCurve, onRoom }: RunControl = {}) => {
    const curves: (Curve | null)[] = jobs.map(() => null);
    const stopped = (): boolean => signal?.aborted === true;
    const stop = (): void => void this.#giveUp();
    if (signal instanceof AbortSignal) signal.addEventListener('abort', stop, { once: true });
    let next = 0;
    let done = 0;
    const lane = async (): Promise<void> => {
      while (next < jobs.length && !stopped()) {
        const i = next;
        next += 1;
        const curve = await this.#inTurn(jobs[i], stopped);
        if (curve === null) return;
        curves[i] = curve;
        done += 1;
        onCurve?.(curve, i);
        onProgress?.(done, jobs.length);
      }
      onRoom?.();
    };
    try {
      await Promise.all(Array.from({ length: Math.min(MOST_AHEAD, jobs.length) }, lane));
      return curves;
    } catch (error) {
      next = jobs.length;
      await this.#giveUp();
      throw error;
    } finally {
      if (signal instanceof AbortSignal) signal.removeEventListener('abort', stop);
    }
  };

  async close(): Promise<void> {
    clearInterval(this.#looking);
    await this.#giveUp();
    await this.#close();
  }

  /** As {@link #forecast}, with no more than so many under way in all. */
  async #inTurn(job: StudyJob, stopped: () => boolean): Promise<Curve | null> {
    if (this.#sent.size >= MOST_AHEAD)
      await new Promise<void>((resolve) => {
        this.#waiting.push(resolve);
      });
    return stopped() ? null : this.#forecast(job);
  }

  /** Sends a job and waits for its curve; null after an abort. The same job twice at once is sent once. */
  async #forecast(job: StudyJob): Promise<Curve | null> {
    if (this.#connection.gone.aborted) throw this.#lost;
    const id = `${version()}-${jobKey(job)}`;
    const same = this.#sent.get(id);
    return new Promise((resolve, reject) => {
      this.#sent.set(id, {
        job,
        settle: (outcome) => {
          same?.settle(outcome);
          resolve(outcome);
        },
        fail: (error) => {
          same?.fail(error);
          reject(error);
        },
      });
      if (same === undefined) this.#add(id, job).catch((error) => this.#fail(id, this.#refused(error)));
      else this.#waiting.shift()?.();
    });
  }

  /** A job that is there already is not made again. */
  async #add(id: string, job: StudyJob): Promise<void> {
    await this.#queue.add(version(), job, {
      jobId: id,
      attempts: ATTEMPTS,
      backoff: { type: 'fixed', delay: 1000 },
      removeOnComplete: KEPT,
      removeOnFail: true,
    });
  }

  #take(id: string, curve: Curve): void {
    const sent = this.#sent.get(id);
    if (sent === undefined) return;
    this.#sent.delete(id);
    // The server need not hold what is here. Another study that waits for the same asks again.
    this.#queue.remove(id).catch(() => {});
    sent.settle(curve);
    this.#waiting.shift()?.();
  }

  #fail(id: string, error: Error): void {
    const sent = this.#sent.get(id);
    this.#sent.delete(id);
    this.#waiting.shift()?.();
    sent?.fail(error);
  }

  #failAll(error: Error): void {
    for (const id of [...this.#sent.keys()]) this.#fail(id, error);
  }

  /** A server that is full, or may not be written to, is no fault of the program. */
  #refused(error: unknown): CommandFailure {
    return new CommandFailure(EXIT.file, [`${this.#shown}: takes no forecasts (${whyRefused(error)})`]);
  }

  /** How a job stands of which nothing was heard. */
  async #look(id: string): Promise<void> {
    const sent = this.#sent.get(id);
    if (sent === undefined) return;
    try {
      const job = await this.#queue.getJob(id);
      if (!this.#sent.has(id)) return;
      this.#noteRefusal(job?.progress);
      // The server lost it, or another study has fetched it.
      if (job === undefined) await this.#add(id, sent.job);
      else if (job.finishedOn !== undefined && job.returnvalue !== null)
        this.#take(id, curveOf(job.returnvalue));
    } catch {
      // The server is away: the next look tells more.
    }
  }

  /** A worker of another version leaves a note with the job, and is told of once. */
  #noteRefusal(note: unknown): void {
    const other = refusedBy(note);
    if (other === null || this.#refusing.has(other)) return;
    this.#refusing.add(other);
    this.#say(
      `a worker of valvetide ${other} refuses what valvetide ${version()} asks for: install one version on both sides`,
    );
  }

  async #isLeftAlone(): Promise<boolean> {
    try {
      return this.#sent.size > 0 && (await this.#queue.getActiveCount()) === 0;
    } catch {
      return false;
    }
  }

  /** Takes back what nobody has begun, and waits for nothing more. */
  async #giveUp(): Promise<void> {
    const left = [...this.#sent];
    this.#sent.clear();
    for (const [, { settle }] of left) settle(null);
    for (const turn of this.#waiting.splice(0)) turn();
    if (this.#connection.answers()) await soon(left.map(([id]) => this.#queue.remove(id)));
  }
}

/** Waits until all is done, whatever came of it, but not for a server that went away meanwhile. */
async function soon(all: readonly Promise<unknown>[]): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise((resolve) => {
    timer = setTimeout(resolve, FAREWELL);
  });
  await Promise.race([Promise.allSettled(all), late]);
  clearTimeout(timer);
}

function curveOf(value: unknown): Curve {
  return (typeof value === 'string' ? JSON.parse(value) : value) as Curve;
}

function refusedBy(data: unknown): string | null {
  const other = typeof data === 'object' && data !== null ? Reflect.get(data, 'refusedBy') : null;
  return typeof other === 'string' && /^[\w.+-]{1,40}$/.test(other) ? other : null;
}
