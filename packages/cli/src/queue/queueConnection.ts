/** A connection to the server of a queue, and the packages it takes, which are loaded for nothing else. */
import type { Redis } from 'ioredis';
import { CommandFailure } from '../commandFailure.ts';
import { EXIT } from '../exitCodes.ts';
import { reasonOf } from '../output/reasonOf.ts';
import { plainShort } from '../render/plain.ts';
import type { QueueAddress } from './queueAddress.ts';
import { queuePulse } from './queuePulse.ts';

export type QueueLibrary = typeof import('bullmq');

export interface QueueConnection {
  readonly library: QueueLibrary;
  readonly redis: Redis;
  /** Aborted once the server answered nothing for as long as was to be waited. */
  readonly gone: AbortSignal;
  /** Whether the server answers now: what it is asked else is not heard before it comes back. */
  readonly answers: () => boolean;
  /** Takes what parts of the queue complain of, and says what a user can do something about. */
  readonly complain: (error: Error) => void;
  /** Ends this connection and all that the library made of it, whether or not the server is there. */
  readonly close: () => void;
}

/** The one queue of a data base. */
export const QUEUE_NAME = 'valvetide';

/** The connection, of which is told already, and a forecast that somebody else took up because we were not heard of. */
const EXPECTED = /connection|ECONN|EPIPE|ETIMEDOUT|\block\b|missing key/iu;

/** How long a server may take to answer at first [ms]. */
const PATIENCE = 8000;
/** Longest pause between two tries to connect again [ms]. */
const LONGEST_PAUSE = 5000;

/**
 * Connects, or says in plain words why not. A connection that is lost later is tried again until the server was away for too long.
 *
 * @param say - writes one line for the user
 * @param seconds - how long a server may be away; without end where infinite
 */
export async function connectQueue(
  { url, shown }: QueueAddress,
  say: (line: string) => void,
  seconds: number = Number.POSITIVE_INFINITY,
): Promise<QueueConnection> {
  const { library, Redis } = await load();
  let closed = false;
  const redis = new Redis(url, {
    lazyConnect: true,
    // Commands wait for the server to come back: who waits for it too long is told by `gone`.
    maxRetriesPerRequest: null,
    retryStrategy: (times) => (closed ? null : Math.min(200 * times, LONGEST_PAUSE)),
  });
  let last: unknown = new Error('no answer');
  redis.on('error', (error) => {
    last = error;
  });
  try {
    await answered(redis);
  } catch (error) {
    redis.disconnect();
    throw new CommandFailure(EXIT.file, [`${shown}: can't be reached (${whyNot(error, last)})`]);
  }
  const clients = withTwins(redis);
  let lost = false;
  const isAway = (how: string): void => {
    if (!lost) say(`${shown}: ${how}`);
    lost = true;
  };
  const isBack = (): void => {
    if (lost) say(`${shown}: connected again`);
    lost = false;
  };
  redis.on('close', () => isAway('the connection is lost, trying again'));
  redis.on('ready', isBack);
  const pulse = queuePulse(redis, seconds, {
    onSilence: () => isAway('no answer, waiting for it'),
    onAnswer: isBack,
  });
  const complain = ({ message }: Error): void => {
    if (!EXPECTED.test(message)) say(`${shown}: ${plainShort(message, 200)}`);
  };
  const close = (): void => {
    closed = true;
    pulse.stop();
    redis.removeAllListeners('close');
    for (const client of clients) client.disconnect();
  };
  return { library, redis, gone: pulse.gone, answers: pulse.answers, complain, close };
}

/** The connection, and those that the library makes after its image: it can't end these itself while the server is away. */
function withTwins(redis: Redis): ReadonlySet<Redis> {
  const clients = new Set([redis]);
  const duplicate = redis.duplicate.bind(redis);
  redis.duplicate = (override) => {
    const twin = duplicate(override);
    clients.add(twin);
    return twin;
  };
  return clients;
}

async function load(): Promise<{ readonly library: QueueLibrary; readonly Redis: typeof Redis }> {
  try {
    const [library, { Redis }] = await Promise.all([import('bullmq'), import('ioredis')]);
    return { library, Redis };
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ERR_MODULE_NOT_FOUND')) throw error;
    throw new CommandFailure(EXIT.file, [
      '--queue needs two packages that are not installed; beside valvetide, with --global where it has that, run',
      'npm install --ignore-scripts bullmq@6.7.0 ioredis@6.0.0',
    ]);
  }
}

/** A first answer: the server is there, and lets us in. */
async function answered(redis: Redis): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('no answer')), PATIENCE);
  });
  try {
    await Promise.race([redis.connect().then(() => redis.ping()), late]);
  } finally {
    clearTimeout(timer);
  }
}

const REASONS: readonly (readonly [RegExp, string])[] = [
  [/\bOOM\b/, 'its memory is full'],
  [/MISCONF/, "it can't write to its disk"],
  [/READONLY/, 'it may only be read from'],
  [/NOPERM/, 'this user may not'],
  [/NOAUTH/, 'it asks for a password: VALVETIDE_QUEUE_PASSWORD'],
  [/WRONGPASS|invalid password/, 'user or password is wrong'],
  [/ENOTFOUND|EAI_AGAIN/, 'no machine of that name'],
  [/ECONNREFUSED/, 'nothing listens there'],
  [/ETIMEDOUT|no answer/, 'no answer'],
];

/** Why nothing can be reached, by what came of the try and the last that was heard of the connection. */
function whyNot(error: unknown, last: unknown): string {
  return known(last) ?? known(error) ?? reasonOf(last);
}

/** Why a server took nothing that it was sent. */
export function whyRefused(error: unknown): string {
  return known(error) ?? 'no reason that is known';
}

/** The words of a server may hold what it was sent: only those we know are passed on, in ours. */
function known(error: unknown): string | undefined {
  const text = error instanceof Error ? `${error.message} ${'code' in error ? error.code : ''}` : '';
  return REASONS.find(([words]) => words.test(text))?.[1];
}
