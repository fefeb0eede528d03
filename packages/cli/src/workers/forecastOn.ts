/** A curve on as many threads as asked for, a speed on each: the same bytes on any number of them. */
import {
  type AsyncForecastOptions,
  type Combination,
  type Curve,
  forecastAsync,
  splitJob,
} from '@valvetide/core';
import type { JobRunner } from './jobRunner.ts';

/** Ends early where the signal is aborted; the curve is then null, or has `complete` false. */
export async function forecastOn(
  openRunner: (workers: number) => JobRunner,
  workers: number,
  combination: Combination,
  options: Pick<AsyncForecastOptions, 'rpm' | 'fidelity' | 'signal'> & {
    readonly onProgress: (done: number, total: number) => void;
  },
): Promise<Curve | null> {
  const { rpm, fidelity, signal, onProgress } = options;
  if (workers < 2 || rpm.length < 2) return forecastAsync(combination, options);
  const { pieces, join } = splitJob({ combination, rpm, ...(fidelity === undefined ? {} : { fidelity }) });
  const runner = openRunner(Math.min(workers, pieces.length));
  try {
    return join(await runner.run(pieces, { ...(signal === undefined ? {} : { signal }), onProgress }));
  } finally {
    await runner.close();
  }
}
