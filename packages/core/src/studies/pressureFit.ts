/** Two signals over a cycle: their means, what is between them, and the shift that makes them most alike. */

import { topBetween } from '../numerics/topOf.ts';

/** Values by crank angle [deg], rising; of a whole cycle the last and the first are neighbours. */
export interface Signal {
  readonly angleDeg: readonly number[];
  readonly value: readonly number[];
}

/** How a forecast fits what was measured. */
export interface SignalFit {
  /** The forecast at the measured angles. */
  readonly forecast: readonly number[];
  /** Means over the measured angles. */
  readonly meanMeasured: number;
  readonly meanForecast: number;
  /** Of forecast less measured. */
  readonly rootMeanSquare: number;
  /** By how much the forecast is late [deg]; null where likeness has no top within {@link FARTHEST}. */
  readonly lag: number | null;
  /** Correlation at that shift, or the best there is [-]. */
  readonly likeness: number;
}

/** Shifts looked at, to both sides, and between them [deg]. */
const FARTHEST = 60;
const STEP = 0.5;
const CYCLE = 720;
const ROUNDING = 1e-20;

/** @param forecast - over a whole cycle */
export function fitOf(measured: Signal, forecast: Signal): SignalFit {
  const weights = weightsOf(measured.angleDeg);
  const at = (lag: number): readonly number[] =>
    measured.angleDeg.map((angle) => periodicAt(forecast, angle + lag));
  const here = at(0);
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value, i) => sum + weights[i] * value, 0);
  const meanMeasured = mean(measured.value);
  const alike = (lag: number): number => {
    const shifted = at(lag);
    const middle = mean(shifted);
    const both = mean(shifted.map((value, i) => (value - middle) * (measured.value[i] - meanMeasured)));
    const own = mean(shifted.map((value) => (value - middle) ** 2));
    const other = mean(measured.value.map((value) => (value - meanMeasured) ** 2));
    // A level has no form: what is left of it is rounding.
    const moves = own > ROUNDING * middle ** 2 && other > ROUNDING * meanMeasured ** 2;
    return moves ? both / Math.sqrt(own * other) : 0;
  };
  const count = (2 * FARTHEST) / STEP;
  const likeness = Array.from({ length: count + 1 }, (_, i) => alike(-FARTHEST + i * STEP));
  const best = likeness.indexOf(Math.max(...likeness));
  const beside = topBetween(likeness[best - 1], likeness[best], likeness[best + 1]) ?? 0;
  return {
    forecast: here,
    meanMeasured,
    meanForecast: mean(here),
    rootMeanSquare: Math.sqrt(mean(here.map((value, i) => (value - measured.value[i]) ** 2))),
    lag: best === 0 || best === count ? null : -FARTHEST + STEP * (best + beside),
    likeness: likeness[best],
  };
}

/** Share of the cycle, or of what was measured of it, that each angle stands for; together 1. */
function weightsOf(angles: readonly number[]): readonly number[] {
  const last = angles.length - 1;
  const usual = (angles[last] - angles[0]) / last;
  const gap = angles[0] + CYCLE - angles[last];
  // Around a whole cycle the ends are neighbours; of a part of one each has half an interval.
  const between = gap < 3 * usual ? gap : 0;
  const widths = angles.map((angle, i) => {
    const before = i === 0 ? between : angle - angles[i - 1];
    const after = i === last ? between : angles[i + 1] - angle;
    return (before + after) / 2;
  });
  const sum = widths.reduce((a, b) => a + b);
  return widths.map((width) => width / sum);
}

/** Along straight lines, from the end of the cycle to its beginning too. */
function periodicAt({ angleDeg, value }: Signal, angle: number): number {
  const first = angleDeg[0];
  const a = angle - CYCLE * Math.floor((angle - first) / CYCLE);
  let low = 0;
  let high = angleDeg.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (angleDeg[middle] <= a) low = middle;
    else high = middle;
  }
  const next = low + 1 === angleDeg.length ? 0 : low + 1;
  const to = next === 0 ? first + CYCLE : angleDeg[next];
  const share = to > angleDeg[low] ? (a - angleDeg[low]) / (to - angleDeg[low]) : 0;
  return value[low] + share * (value[next] - value[low]);
}
