/** A curve on as many threads as asked for, or on a queue, a speed on each: the same bytes wherever they are computed. */
import {
  type AsyncForecastOptions,
  type Combination,
  type Curve,
  forecastAsync,
  splitJob,
} from '@valvetide/core';
import type { JobRunner } from './jobRunner.ts';

/**
 * Ends early where the signal is aborted; the curve is then null, or has `complete` false.
 *
 * @param open - opens a runner with so many threads at the most
 * @param workers - threads; null: whoever works on a queue, so that nothing is computed here
 */
export async function forecastOn(
  open: (most: number) => JobRunner | Promise<JobRunner>,
  workers: number | null,
  combination: Combination,
  options: Pick<AsyncForecastOptions, 'rpm' | 'fidelity' | 'signal'> & {
    readonly onProgress: (done: number, total: number) => void;
  },
): Promise<Curve | null> {
  const { rpm, fidelity, signal, onProgress } = options;
  if (workers !== null && (workers < 2 || rpm.length < 2)) return forecastAsync(combination, options);
  const { pieces, join } = splitJob({ combination, rpm, ...(fidelity === undefined ? {} : { fidelity }) });
  const runner = await open(Math.min(workers ?? 1, pieces.length));
  try {
    return join(await runner.run(pieces, { ...(signal === undefined ? {} : { signal }), onProgress }));
  } finally {
    await runner.close();
  }
}
