/** Tables of one variable: linear, monotone cubic, and a uniform grid for inner loops. */
import { DomainError } from '../base/errors.ts';

/** Outside the table: hold the end value, carry on along the end's straight line, or refuse. */
export type OutOfRange = 'hold' | 'extend' | 'throw';

/** A prepared interpolant: value and derivative at any abscissa. */
export interface Interpolant {
  /** First and last abscissa. */
  readonly from: number;
  readonly to: number;
  valueAt(x: number): number;
  derivativeAt(x: number): number;
}

/** Equally spaced samples: entry i belongs to `from + i * step`. Plain data, cheap to read. */
export interface UniformTable {
  readonly from: number;
  readonly step: number;
  readonly values: Float64Array;
}

/**
 * Straight lines between the points [unit of y].
 *
 * @param x - abscissae, strictly rising, at least two
 * @param y - ordinates, as many
 */
export function linearTable(
  x: readonly number[],
  y: readonly number[],
  outOfRange: OutOfRange = 'hold',
): Interpolant {
  checkTable(x, y);
  const slopes = x.slice(1).map((right, i) => (y[i + 1] - y[i]) / (right - x[i]));
  const ends = { left: slopes[0], right: slopes[slopes.length - 1] };
  return prepared(
    x,
    y,
    outOfRange,
    ends,
    (i, t) => y[i] + slopes[i] * t,
    (i) => slopes[i],
  );
}

/**
 * Piecewise cubic that is monotone wherever the points are [unit of y]: no bump between them; continuous slope.
 *
 * Third-order accurate on smooth data. Slopes start from three-point differences and are limited to the circle of
 * radius 3 in the plane of slopes over secant.
 *
 * @param x - abscissae, strictly rising, at least two
 * @param y - ordinates, as many
 * @see Fritsch and Carlson (1980), SIAM J. Numer. Anal. 17(2), 238-246
 */
export function monotoneCubic(
  x: readonly number[],
  y: readonly number[],
  outOfRange: OutOfRange = 'hold',
): Interpolant {
  checkTable(x, y);
  const m = monotoneSlopes(x, y);
  const ends = { left: m[0], right: m[m.length - 1] };
  const coefficients = (i: number): readonly [h: number, c: number, d: number] => {
    const h = x[i + 1] - x[i];
    const secant = (y[i + 1] - y[i]) / h;
    return [h, (3 * secant - 2 * m[i] - m[i + 1]) / h, (m[i] + m[i + 1] - 2 * secant) / (h * h)];
  };
  const cubic = Array.from({ length: x.length - 1 }, (_, i) => coefficients(i));
  return prepared(
    x,
    y,
    outOfRange,
    ends,
    (i, t) => y[i] + t * (m[i] + t * (cubic[i][1] + t * cubic[i][2])),
    (i, t) => m[i] + t * (2 * cubic[i][1] + 3 * t * cubic[i][2]),
  );
}

/** Reads a uniform table linearly, holding the end values outside [unit of the table]. For inner loops: no guards. */
export function lookUp(table: UniformTable, x: number): number {
  const values = table.values;
  const last = values.length - 1;
  const position = (x - table.from) / table.step;
  if (position <= 0) return values[0];
  if (position >= last) return values[last];
  const i = Math.floor(position);
  return values[i] + (position - i) * (values[i + 1] - values[i]);
}

/** Reads a uniform table that covers exactly one period without its end point, wrapping round. No guards. */
export function lookUpPeriodic(table: UniformTable, x: number): number {
  const values = table.values;
  const count = values.length;
  let position = (x - table.from) / table.step;
  position -= count * Math.floor(position / count);
  // A tiny negative position can round up to the full period.
  let i = Math.floor(position);
  if (i >= count) i = 0;
  const next = i + 1 === count ? 0 : i + 1;
  return values[i] + (position - Math.floor(position)) * (values[next] - values[i]);
}

function monotoneSlopes(x: readonly number[], y: readonly number[]): number[] {
  const n = x.length;
  const secant = x.slice(1).map((right, i) => (y[i + 1] - y[i]) / (right - x[i]));
  if (n === 2) return [secant[0], secant[0]];
  const m = new Array<number>(n);
  for (let i = 1; i < n - 1; i++) {
    const before = x[i] - x[i - 1];
    const after = x[i + 1] - x[i];
    // An extremum of the points is an extremum of the curve.
    m[i] =
      Math.sign(secant[i - 1]) !== Math.sign(secant[i])
        ? 0
        : (after * secant[i - 1] + before * secant[i]) / (before + after);
  }
  m[0] = endSlope(secant[0], secant[1], x[1] - x[0], x[2] - x[1]);
  m[n - 1] = endSlope(secant[n - 2], secant[n - 3], x[n - 1] - x[n - 2], x[n - 2] - x[n - 3]);
  for (let i = 0; i < n - 1; i++) {
    const length = Math.hypot(m[i], m[i + 1]);
    const limit = 3 * Math.abs(secant[i]);
    if (length > limit) {
      m[i] *= limit / length;
      m[i + 1] *= limit / length;
    }
  }
  return m;
}

/** Three-point end slope, kept on the side of the end's secant. */
function endSlope(secant: number, next: number, h: number, hNext: number): number {
  const slope = ((2 * h + hNext) * secant - h * next) / (h + hNext);
  return Math.sign(slope) === Math.sign(secant) ? slope : 0;
}

function prepared(
  x: readonly number[],
  y: readonly number[],
  outOfRange: OutOfRange,
  ends: { readonly left: number; readonly right: number },
  value: (i: number, t: number) => number,
  derivative: (i: number, t: number) => number,
): Interpolant {
  const from = x[0];
  const to = x[x.length - 1];
  const refuse = (at: number): never => {
    throw new DomainError('x', at, `in [${from}, ${to}]`);
  };
  return {
    from,
    to,
    valueAt(at: number): number {
      if (Number.isNaN(at)) return refuse(at);
      if (at < from || at > to) {
        if (outOfRange === 'throw') return refuse(at);
        const below = at < from;
        const edge = below ? y[0] : y[y.length - 1];
        if (outOfRange === 'hold') return edge;
        return edge + (below ? ends.left * (at - from) : ends.right * (at - to));
      }
      const i = interval(x, at);
      return value(i, at - x[i]);
    },
    derivativeAt(at: number): number {
      if (Number.isNaN(at)) return refuse(at);
      if (at < from || at > to) {
        if (outOfRange === 'throw') return refuse(at);
        if (outOfRange === 'hold') return 0;
        return at < from ? ends.left : ends.right;
      }
      const i = interval(x, at);
      return derivative(i, at - x[i]);
    },
  };
}

/** Index of the interval that holds `at`, by bisection. */
function interval(x: readonly number[], at: number): number {
  let low = 0;
  let high = x.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}

function checkTable(x: readonly number[], y: readonly number[]): void {
  if (!(x.length >= 2)) throw new DomainError('x', x.length, 'at least 2 entries');
  if (y.length !== x.length) throw new DomainError('y', y.length, `as many entries as x, ${x.length}`);
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]) || (i > 0 && !(x[i] > x[i - 1]))) {
      throw new DomainError(`x[${i}]`, x[i], 'finite and rising');
    }
    if (!Number.isFinite(y[i])) throw new DomainError(`y[${i}]`, y[i], 'finite');
  }
}
