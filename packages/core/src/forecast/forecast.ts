/** The torque and power curve of a combination. */
import type { Cancellation } from '../base/cancellation.ts';
import { nextTurn, type Pause } from '../base/turn.ts';
import type { Combination } from '../combination/combination.ts';
import type { Curve, OperatingPoint } from './curve.ts';
import { curveMarch, type ForecastOptions, marchedCurve } from './curveMarch.ts';

/** The same where others shall have their turn. */
export interface AsyncForecastOptions extends ForecastOptions {
  /** An `AbortSignal`, looked at between speeds: what was done until then is kept. */
  readonly signal?: Cancellation;
  /** How to let others have a turn between speeds; default a turn of the event loop. */
  readonly pause?: Pause;
}

/**
 * Forecasts torque and power at full throttle, speed by speed. Nothing else runs meanwhile: {@link forecastAsync} lets
 * others have a turn between speeds.
 *
 * @throws {@link DomainError} where speeds are missing, not rising or out of 100 to 30 000 rpm
 *
 * @example
 * ```ts
 * const read = readCombination(text);
 * if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
 * const { peak } = forecast(read.value, { rpm: [3000, 4000, 5000, 6000] });
 * ```
 */
export function forecast(combination: Combination, options: ForecastOptions): Curve {
  return marchedCurve(combination, options);
}

/**
 * Forecasts a point at a time: each is there as soon as it is computed, and the event loop has a turn before the next.
 * Ends early where its signal is aborted. What it returns at the end is the curve of all the points it gave.
 *
 * @throws {@link DomainError} as {@link forecast}, at the first point
 *
 * @example
 * ```ts
 * for await (const point of forecastPoints(combination, { rpm: [3000, 4000, 5000], signal })) draw(point);
 * ```
 */
export async function* forecastPoints(
  combination: Combination,
  options: AsyncForecastOptions,
): AsyncGenerator<OperatingPoint, Curve, void> {
  const { signal, pause = nextTurn } = options;
  const march = curveMarch(combination, options);
  for (;;) {
    await pause();
    const point = signal?.aborted === true ? null : march.next();
    if (point === null) return march.curve();
    yield point;
  }
}

/**
 * Forecasts as {@link forecast} does, with a turn for others between speeds. Where its signal is aborted, the curve has the
 * points that were done, and `complete` is false.
 *
 * @throws {@link DomainError} as {@link forecast}
 *
 * @example
 * ```ts
 * const stop = new AbortController();
 * const curve = await forecastAsync(combination, { rpm: [3000, 4000, 5000], signal: stop.signal });
 * if (!curve.complete) console.warn(`stopped after ${curve.points.length} speeds`);
 * ```
 */
export async function forecastAsync(combination: Combination, options: AsyncForecastOptions): Promise<Curve> {
  const points = forecastPoints(combination, options);
  for (;;) {
    const step = await points.next();
    if (step.done === true) return step.value;
  }
}
