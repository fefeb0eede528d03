/** A study's jobs done by whoever works on a queue: the curves come back as if they had been done here. */
import type { Curve, RunControl, RunJobs, StudyJob } from '@valvetide/core';
import type { Queue, QueueEvents } from 'bullmq';
import { jobKey } from '../parts/jobKey.ts';
import { version } from '../version.ts';
import type { JobRunner } from '../workers/jobRunner.ts';
import type { QueueAddress } from './queueAddress.ts';
import { connectQueue, QUEUE_NAME, type QueueConnection } from './queueConnection.ts';

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
/** Messages the server keeps: all those of the jobs under way, and again as many. */
const MOST_MESSAGES = 8 * MOST_AHEAD;

/** A job that was sent, and who waits for it. */
interface Sent {
  readonly job: StudyJob;
  readonly settle: (outcome: Curve | null) => void;
  readonly fail: (error: Error) => void;
}

/** Connects to a queue, or says in plain words why not. */
export async function openQueueRunner(
  address: QueueAddress,
  say: (line: string) => void,
): Promise<JobRunner> {
  const connection = await connectQueue(address, say);
  const { redis, library, complain } = connection;
  const queue = new library.Queue(QUEUE_NAME, {
    connection: redis,
    streams: { events: { maxLen: MOST_MESSAGES } },
  });
  const events = new library.QueueEvents(QUEUE_NAME, { connection: redis });
  queue.on('error', complain);
  events.on('error', complain);
  await Promise.all([queue.waitUntilReady(), events.waitUntilReady()]);
  return new QueueRunner(address, connection, queue, events, say);
}

class QueueRunner implements JobRunner {
  readonly #queue: Queue;
  readonly #sent = new Map<string, Sent>();
  /** Jobs whose turn has not come. */
  readonly #waiting: (() => void)[] = [];
  /** Versions whose workers refused. */
  readonly #refusing = new Set<string>();
  readonly #say: (line: string) => void;
  readonly #looking: NodeJS.Timeout;
  readonly #close: () => Promise<void>;

  constructor(
    address: QueueAddress,
    { close }: QueueConnection,
    queue: Queue,
    events: QueueEvents,
    say: (line: string) => void,
  ) {
    this.#queue = queue;
    this.#say = say;
    events.on('completed', ({ jobId, returnvalue }) => this.#take(jobId, curveOf(returnvalue)));
    events.on('failed', ({ jobId, failedReason }) => this.#fail(jobId, failedReason));
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
      for (const id of this.#sent.keys()) void this.#look(id);
      if (this.#sent.size === 0) heard = Date.now();
      if (lonely || Date.now() - heard < LONELY_AFTER) return;
      lonely = true;
      void this.#isLeftAlone().then((alone) => {
        if (alone) say(`nobody works on ${address.shown}: valvetide work --queue ${address.shown}`);
      });
    }, LOOK_EVERY);
    this.#close = async () => {
      await Promise.allSettled([events.close(), queue.close()]);
      close();
    };
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
      if (same === undefined) this.#add(id, job).catch((error) => this.#fail(id, String(error)));
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

  #fail(id: string, reason: string): void {
    const sent = this.#sent.get(id);
    this.#sent.delete(id);
    this.#waiting.shift()?.();
    sent?.fail(new Error(`a forecast failed on the queue: ${reason}`));
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
    await Promise.allSettled(left.map(([id]) => this.#queue.remove(id)));
  }
}

function curveOf(value: unknown): Curve {
  return (typeof value === 'string' ? JSON.parse(value) : value) as Curve;
}

function refusedBy(data: unknown): string | null {
  const other = typeof data === 'object' && data !== null ? Reflect.get(data, 'refusedBy') : null;
  return typeof other === 'string' && /^[\w.+-]{1,40}$/.test(other) ? other : null;
}
