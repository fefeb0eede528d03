/** The smoothest flank of a cam lobe through given points: one positive and one negative stretch of acceleration. */
import { DomainError } from '../base/errors.ts';

/** Piecewise cubic flank in distance from the seat; lift, slope and acceleration are continuous. */
export interface LobeFlank {
  /** Angle from seat to nose [crank deg]. */
  readonly length: number;
  /** At equally spaced nodes from seat to nose [m], [m/deg], [m/deg2]. */
  readonly lift: Float64Array;
  readonly slope: Float64Array;
  readonly acceleration: Float64Array;
}

/** Intervals of the flank: about 2.5 deg each on a usual lobe, fine enough that doubling moves no lift by 2e-4. */
const INTERVALS = 64;

/**
 * Flank that passes every point and has the least integral of squared jerk (third derivative of lift).
 *
 * The acceleration is a chain of straight lines, zero at the seat. It is positive from the seat to one inflection and
 * negative from there to the nose, so the lift has no bump; slope is zero at the seat and at the nose. Without the
 * sign rule this is the quintic spline of least jerk; usual cards obey the rule by themselves, others get a quadratic
 * programme by block pivoting for each inflection in turn.
 *
 * @param length - angle from seat to nose [crank deg]
 * @param from - distance of each point from the seat [crank deg], rising, inside the flank
 * @param lift - lift of each point [m], rising
 * @param maxLift - lift at the nose [m]
 * @throws {@link DomainError} when no single hump passes the points
 * @see Judice and Pires (1994), Computers Ops Res. 21(5), 587-596, for block principal pivoting (from memory)
 */
export function lobeFlank(
  length: number,
  from: readonly number[],
  lift: readonly number[],
  maxLift: number,
): LobeFlank {
  const n = INTERVALS;
  const rows = [...from.map((s) => liftRow(s / length, n)), liftRow(1, n), slopeRow(n)];
  const wanted = [...lift.map((l) => l / maxLift), 1, 0];
  const free = Array.from({ length: n }, (_, i) => i);
  const plain = leastJerk(rows, wanted, free)?.a ?? null;
  let best: Float64Array | null = null;
  if (plain !== null && inflection(plain) !== null) best = plain;
  else if (riseThenFall(length, from, lift, maxLift))
    best = bestSigned(rows, wanted, turnAfterPeak(plain, n));
  if (best === null) {
    throw new DomainError(
      'points',
      from.map((s, i) => `${(2 * (length - s)).toFixed(1)} deg above ${lift[i]} m`).join(', '),
      'durations that one smooth hump can pass',
    );
  }
  return integrate(length, maxLift, best);
}

/** Lift at a distance from the seat [crank deg] on the flank [m]; for inner loops, no guards. */
export function flankLift(flank: LobeFlank, s: number): number {
  const last = flank.lift.length - 1;
  const step = flank.length / last;
  if (s <= 0) return 0;
  if (s >= flank.length) return flank.lift[last];
  const i = Math.min(last - 1, Math.floor(s / step));
  const t = s - i * step;
  const a = flank.acceleration[i];
  const jerk = (flank.acceleration[i + 1] - a) / step;
  return flank.lift[i] + t * (flank.slope[i] + t * (a / 2 + (t * jerk) / 6));
}

/** Weights of the nodal accelerations (the seat's is zero and left out) in the lift at s, all of unit flank. */
function liftRow(s: number, n: number): Float64Array {
  const d = 1 / n;
  const cube = (x: number): number => (x > 0 ? x * x * x : 0);
  // Twice integrated hat functions.
  return Float64Array.from({ length: n }, (_, k) => {
    const t = (k + 1) * d;
    return (cube(s - t + d) - 2 * cube(s - t) + cube(s - t - d)) / (6 * d);
  });
}

/** Weights of the nodal accelerations in the slope at the nose. */
function slopeRow(n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, k) => (k === n - 1 ? 0.5 : 1) / n);
}

/** A minimum of squared jerk: nodal accelerations and what each point pulls. */
interface LeastJerk {
  readonly a: Float64Array;
  readonly pull: Float64Array;
}

/**
 * Accelerations of least jerk on the free nodes, zero elsewhere, passing the points; null where impossible.
 *
 * Stationary: D a + C'pull = 0 on the free nodes, C a = wanted. D is tridiagonal, so only the points' own small
 * matrix C D^-1 C' is dense.
 */
function leastJerk(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  free: readonly number[],
): LeastJerk | null {
  const n = rows[0].length;
  const reach = rows.map((row) => solveDifferences(row, free));
  const small = (right: readonly number[]): Float64Array | null =>
    solve(rows.map((row, r) => Float64Array.from([...reach.map((column) => dot(row, column)), right[r]])));
  const a = new Float64Array(n);
  const pull = new Float64Array(rows.length);
  // The second pass removes what rounding in the first left of the points.
  for (let pass = 0; pass < 2; pass++) {
    const share = small(rows.map((row, r) => wanted[r] - dot(row, a)));
    if (share === null) return null;
    share.forEach((value, r) => {
      pull[r] -= value;
      for (let i = 0; i < n; i++) a[i] += value * reach[r][i];
    });
  }
  // Points closer than the nodes can tell apart leave a singular matrix and a meaningless answer.
  return passes(rows, wanted, a) ? { a, pull } : null;
}

/** Whether accelerations pass every point within 1e-8 of the lobe's lift. */
function passes(rows: readonly Float64Array[], wanted: readonly number[], a: Float64Array): boolean {
  return rows.every((row, r) => Math.abs(dot(row, a) - wanted[r]) <= 1e-8);
}

/** D x = right on the free nodes (rising), zero elsewhere: D holds 2 and -1, and 1 at the nose (Thomas algorithm). */
function solveDifferences(right: Float64Array, free: readonly number[]): Float64Array {
  const n = right.length;
  const x = new Float64Array(n);
  const upper = new Float64Array(n);
  for (const i of free) {
    const linked = i > 0 && upper[i - 1] !== 0;
    const diagonal = (i === n - 1 ? 1 : 2) + (linked ? upper[i - 1] : 0);
    x[i] = (right[i] + (linked ? x[i - 1] : 0)) / diagonal;
    upper[i] = -1 / diagonal;
  }
  const isFree = new Uint8Array(n);
  for (const i of free) isFree[i] = 1;
  for (let i = n - 2; i >= 0; i--) if (isFree[i] === 1 && isFree[i + 1] === 1) x[i] -= upper[i] * x[i + 1];
  return x;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** Node where positive turns to negative, or null when the signs change otherwise. Rounding is overlooked. */
function inflection(a: Float64Array): number | null {
  const tolerance = 1e-9 * a.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let turn = 0;
  while (turn < a.length && a[turn] >= -tolerance) turn++;
  for (let i = turn; i < a.length; i++) if (a[i] > tolerance) return null;
  return turn;
}

/** Whether the mean slopes between the points rise and then fall, without which no single hump passes them. */
function riseThenFall(
  length: number,
  from: readonly number[],
  lift: readonly number[],
  maxLift: number,
): boolean {
  const s = [0, ...from, length];
  const l = [0, ...lift, maxLift];
  const mean = s.slice(1).map((right, i) => (l[i + 1] - l[i]) / (right - s[i]));
  const peak = mean.indexOf(Math.max(...mean));
  return mean.every((value, i) => i === 0 || (i <= peak ? value > mean[i - 1] : value < mean[i - 1]));
}

/** First guess of the inflection: where the unsigned solution turns negative after its highest acceleration. */
function turnAfterPeak(a: Float64Array | null, n: number): number {
  if (a === null) return n >> 1;
  let turn = a.indexOf(a.reduce((most, value) => Math.max(most, value)));
  while (turn < n - 1 && a[turn] >= 0) turn++;
  return Math.max(2, turn);
}

/** Least jerk over the inflections: downhill from the guess, after a search of every node where the guess fails. */
function bestSigned(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  guess: number,
): Float64Array | null {
  const n = rows[0].length;
  let centre = guess;
  let best = signedLeastJerk(rows, wanted, centre);
  for (let away = 1; best === null && away < n; away++) {
    for (const turn of [guess - away, guess + away]) {
      if (best !== null || turn < 2 || turn >= n) continue;
      best = signedLeastJerk(rows, wanted, turn);
      centre = turn;
    }
  }
  if (best === null) return null;
  let least = jerk(best);
  for (const direction of [-1, 1]) {
    for (let turn = centre + direction; turn >= 2 && turn < n; turn += direction) {
      const a = signedLeastJerk(rows, wanted, turn);
      const value = a === null ? Number.POSITIVE_INFINITY : jerk(a);
      if (a === null || value >= least) break;
      least = value;
      best = a;
      centre = turn;
    }
  }
  return best;
}

/** Sum of squared differences of acceleration [-], the seat's zero included. */
function jerk(a: Float64Array): number {
  return a.reduce((sum, value, i) => sum + (value - (i > 0 ? a[i - 1] : 0)) ** 2, 0);
}

/**
 * Least jerk with accelerations not negative before node `turn` and not positive from it on, by block pivoting.
 *
 * Null where no such accelerations pass the points.
 */
function signedLeastJerk(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  turn: number,
): Float64Array | null {
  const n = rows[0].length;
  const inside = new Array<boolean>(n).fill(true);
  let fewest = n + 1;
  let patience = 3;
  for (let iteration = 0; iteration < 60; iteration++) {
    const free = inside.flatMap((isIn, i) => (isIn ? [i] : []));
    if (free.length < rows.length) return null;
    const least = leastJerk(rows, wanted, free);
    if (least === null) return null;
    const wrong = wrongNodes(rows, least, inside, turn);
    if (wrong.length === 0) return clipped(rows, wanted, least.a, turn);
    if (wrong.length < fewest) {
      fewest = wrong.length;
      patience = 3;
    } else patience--;
    // Exchanging all at once is quick but can cycle; the last index alone (Murty) always ends.
    const exchange = patience >= 0 ? wrong : [Math.max(...wrong)];
    for (const i of exchange) inside[i] = !inside[i];
  }
  return null;
}

/** Free nodes of the wrong sign, and nodes held at zero that would lower the jerk if let go. */
function wrongNodes(
  rows: readonly Float64Array[],
  { a, pull }: LeastJerk,
  inside: readonly boolean[],
  turn: number,
): number[] {
  const n = a.length;
  const largest = a.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const wrong: number[] = [];
  for (let i = 0; i < n; i++) {
    const sign = i < turn ? 1 : -1;
    if (inside[i]) {
      if (sign * a[i] < -1e-10 * largest) wrong.push(i);
      continue;
    }
    let gradient = -((i > 0 ? a[i - 1] : 0) + (i < n - 1 ? a[i + 1] : 0));
    let size = Math.abs(gradient);
    rows.forEach((row, r) => {
      gradient += row[i] * pull[r];
      size += Math.abs(row[i] * pull[r]);
    });
    if (sign * gradient < -1e-10 * size) wrong.push(i);
  }
  return wrong;
}

/** The accelerations without the wrong signs that rounding left; null if that moved a point. */
function clipped(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  a: Float64Array,
  turn: number,
): Float64Array | null {
  const kept = a.map((value, i) => (i < turn ? Math.max(0, value) : Math.min(0, value)));
  return passes(rows, wanted, kept) ? kept : null;
}

/** Gaussian elimination with partial pivoting on an augmented matrix, which it overwrites; null if singular. */
function solve(matrix: Float64Array[]): Float64Array | null {
  const n = matrix.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(matrix[row][column]) > Math.abs(matrix[pivot][column])) pivot = row;
    }
    if (!(Math.abs(matrix[pivot][column]) > Number.MIN_VALUE)) return null;
    [matrix[column], matrix[pivot]] = [matrix[pivot], matrix[column]];
    const top = matrix[column];
    for (let row = column + 1; row < n; row++) {
      const below = matrix[row];
      const factor = below[column] / top[column];
      if (factor === 0) continue;
      for (let k = column; k <= n; k++) below[k] -= factor * top[k];
    }
  }
  const x = new Float64Array(n);
  for (let row = n - 1; row >= 0; row--) {
    let sum = matrix[row][n];
    for (let k = row + 1; k < n; k++) sum -= matrix[row][k] * x[k];
    x[row] = sum / matrix[row][row];
  }
  return x;
}

/** From nodal accelerations of the unit flank to lift, slope and acceleration in metres and degrees. */
function integrate(length: number, maxLift: number, a: Float64Array): LobeFlank {
  const n = a.length;
  const lift = new Float64Array(n + 1);
  const slope = new Float64Array(n + 1);
  const acceleration = new Float64Array(n + 1);
  const step = length / n;
  for (let i = 1; i <= n; i++) {
    acceleration[i] = (a[i - 1] * maxLift) / (length * length);
    const before = acceleration[i - 1];
    slope[i] = slope[i - 1] + ((before + acceleration[i]) / 2) * step;
    lift[i] = lift[i - 1] + slope[i - 1] * step + ((2 * before + acceleration[i]) * step * step) / 6;
  }
  return { length, lift, slope, acceleration };
}
