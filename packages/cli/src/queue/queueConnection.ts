/** A connection to the server of a queue, and the packages it takes, which are loaded for nothing else. */
import type { Redis } from 'ioredis';
import { CommandFailure } from '../commandFailure.ts';
import { EXIT } from '../exitCodes.ts';
import { reasonOf } from '../output/reasonOf.ts';
import { plainShort } from '../render/plain.ts';
import type { QueueAddress } from './queueAddress.ts';

export type QueueLibrary = typeof import('bullmq');

export interface QueueConnection {
  readonly library: QueueLibrary;
  readonly redis: Redis;
  /** Takes what parts of the queue complain of, and says what a user can do something about. */
  readonly complain: (error: Error) => void;
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
 * Connects, or says in plain words why not. A connection that is lost later is tried again for as long as it takes.
 *
 * @param say - writes one line for the user
 */
export async function connectQueue(
  { url, shown }: QueueAddress,
  say: (line: string) => void,
): Promise<QueueConnection> {
  const { library, Redis } = await load();
  const redis = new Redis(url, {
    lazyConnect: true,
    // Commands wait for the server to come back, however long that takes.
    maxRetriesPerRequest: null,
    retryStrategy: (times) => Math.min(200 * times, LONGEST_PAUSE),
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
  let lost = false;
  redis.on('close', () => {
    if (!lost) say(`${shown}: the connection is lost, trying again`);
    lost = true;
  });
  redis.on('ready', () => {
    if (lost) say(`${shown}: connected again`);
    lost = false;
  });
  const complain = ({ message }: Error): void => {
    if (!EXPECTED.test(message)) say(`${shown}: ${plainShort(message, 200)}`);
  };
  const close = (): void => {
    redis.removeAllListeners('close');
    redis.disconnect();
  };
  return { library, redis, complain, close };
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
  [/NOAUTH/, 'it asks for a password: VALVETIDE_QUEUE_PASSWORD'],
  [/WRONGPASS|invalid password/, 'user or password is wrong'],
  [/ENOTFOUND|EAI_AGAIN/, 'no machine of that name'],
  [/ECONNREFUSED/, 'nothing listens there'],
  [/ETIMEDOUT|no answer/, 'no answer'],
];

/** The words of a server may hold what it was sent: only those we know are passed on as they are. */
function whyNot(error: unknown, last: unknown): string {
  for (const cause of [last, error]) {
    const text = cause instanceof Error ? `${cause.message} ${'code' in cause ? cause.code : ''}` : '';
    const known = REASONS.find(([words]) => words.test(text));
    if (known !== undefined) return known[1];
  }
  return reasonOf(last);
}
