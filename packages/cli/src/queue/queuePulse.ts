/** Whether the server of a queue is there: a connection that is lost says so, a machine that is stuck does not. */
import type { Redis } from 'ioredis';

export interface QueuePulse {
  /** Aborted once the server answered nothing for as long as was to be waited. */
  readonly gone: AbortSignal;
  readonly answers: () => boolean;
  readonly stop: () => void;
}

/** Between two questions [ms]. */
const PULSE = 1000;
/** So many questions go unanswered before the server is taken to be away: one under load is late. */
const MOST_UNANSWERED = 3;

/**
 * Asks the server again and again. Counted in questions, not by the clock, so that a laptop that slept for an hour waits anew.
 *
 * @param seconds - how long a server may be away
 */
export function queuePulse(
  redis: Redis,
  seconds: number,
  { onSilence, onAnswer }: { readonly onSilence: () => void; readonly onAnswer: () => void },
): QueuePulse {
  const gone = new AbortController();
  let unanswered = 0;
  let asked = false;
  const ask = async (): Promise<void> => {
    asked = true;
    try {
      await redis.ping();
      unanswered = 0;
      onAnswer();
    } catch {
      // Closed meanwhile, or refused: no answer, then.
    }
    asked = false;
  };
  const timer = setInterval(() => {
    unanswered += 1;
    if (unanswered > MOST_UNANSWERED) onSilence();
    if (unanswered * PULSE > 1000 * seconds) gone.abort();
    if (!asked) void ask();
  }, PULSE);
  return {
    gone: gone.signal,
    answers: () => redis.status === 'ready' && unanswered <= MOST_UNANSWERED,
    stop: () => clearInterval(timer),
  };
}
