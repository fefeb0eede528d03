import { Redis } from 'ioredis';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { queuePulse } from '../../src/queue/queuePulse.ts';

/** A server that answers as it is told, asked over no network. */
function server(ping: () => Promise<'PONG'>): Redis {
  const redis = new Redis({ lazyConnect: true });
  return Object.assign(redis, { ping, status: 'ready' as const });
}

const silent = (): Promise<'PONG'> => new Promise(() => {});

describe('queuePulse(redis, seconds)', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('takes a server to be away after three questions without an answer, and to be gone after the time to wait', async () => {
    let silences = 0;
    const pulse = queuePulse(server(silent), 10, { onSilence: () => silences++, onAnswer: () => {} });
    await vi.advanceTimersByTimeAsync(3500);
    expect([pulse.answers(), silences, pulse.gone.aborted]).toEqual([true, 0, false]);
    await vi.advanceTimersByTimeAsync(1000);
    expect([pulse.answers(), silences, pulse.gone.aborted]).toEqual([false, 1, false]);
    await vi.advanceTimersByTimeAsync(6000);
    expect(pulse.gone.aborted).toBe(false);
    await vi.advanceTimersByTimeAsync(1000);
    expect(pulse.gone.aborted).toBe(true);
    pulse.stop();
  });

  it('counts anew from each answer, however long it goes on', async () => {
    let answers = 0;
    const pulse = queuePulse(
      server(() => Promise.resolve('PONG')),
      5,
      { onSilence: () => {}, onAnswer: () => answers++ },
    );
    await vi.advanceTimersByTimeAsync(60_500);
    expect([pulse.answers(), pulse.gone.aborted, answers]).toEqual([true, false, 60]);
    pulse.stop();
    await vi.advanceTimersByTimeAsync(5000);
    expect(answers).toBe(60);
  });

  it('asks no second question while the first is open, and takes a refused one for no answer', async () => {
    let asked = 0;
    const open = queuePulse(
      server(() => {
        asked++;
        return silent();
      }),
      60,
      { onSilence: () => {}, onAnswer: () => {} },
    );
    await vi.advanceTimersByTimeAsync(9500);
    expect(asked).toBe(1);
    open.stop();
    let silences = 0;
    const refused = queuePulse(
      server(() => Promise.reject(new Error('closed'))),
      5,
      { onSilence: () => silences++, onAnswer: () => {} },
    );
    await vi.advanceTimersByTimeAsync(6500);
    expect([silences, refused.gone.aborted]).toEqual([3, true]);
    refused.stop();
  });
});
