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

/** Weight of the points against the smoothness while the set of active nodes is sought. */
const POINT_WEIGHT = 1e9;

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
  const plain = leastJerk(rows, wanted, free);
  const best =
    plain !== null && inflection(plain) !== null ? plain : bestSigned(rows, wanted, n, from[0] / length);
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

/** Entry of the matrix of squared differences between neighbouring accelerations. */
function difference(i: number, j: number, n: number): number {
  if (i === j) return i === n - 1 ? 1 : 2;
  return Math.abs(i - j) === 1 ? -1 : 0;
}

/** Accelerations of least jerk on the free nodes, zero elsewhere, passing the points; null where impossible. */
function leastJerk(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  free: readonly number[],
): Float64Array | null {
  const n = rows[0].length;
  const size = free.length + rows.length;
  const matrix = Array.from({ length: size }, () => new Float64Array(size + 1));
  free.forEach((i, row) => {
    free.forEach((j, column) => {
      matrix[row][column] = difference(i, j, n);
    });
  });
  rows.forEach((weights, r) => {
    const row = free.length + r;
    free.forEach((i, column) => {
      matrix[row][column] = weights[i];
      matrix[column][row] = weights[i];
    });
    matrix[row][size] = wanted[r];
  });
  const solution = solve(matrix);
  if (solution === null) return null;
  const a = new Float64Array(n);
  free.forEach((i, row) => {
    a[i] = solution[row];
  });
  return a;
}

/** Node where positive turns to negative, or null when the signs change otherwise. Rounding is overlooked. */
function inflection(a: Float64Array): number | null {
  const tolerance = 1e-9 * a.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let turn = 0;
  while (turn < a.length && a[turn] >= -tolerance) turn++;
  for (let i = turn; i < a.length; i++) if (a[i] > tolerance) return null;
  return turn;
}

/** Least jerk over all inflections: every fourth node first, then around the best. */
function bestSigned(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  n: number,
  firstPoint: number,
): Float64Array | null {
  let best: Float64Array | null = null;
  let least = Number.POSITIVE_INFINITY;
  let bestTurn = 0;
  const consider = (turn: number): void => {
    const a = signedLeastJerk(rows, wanted, turn);
    if (a === null) return;
    let jerk = a[0] * a[0];
    for (let i = 1; i < n; i++) jerk += (a[i] - a[i - 1]) ** 2;
    if (jerk < least) {
      least = jerk;
      best = a;
      bestTurn = turn;
    }
  };
  const start = Math.max(2, Math.floor(firstPoint * n));
  for (let turn = start; turn < n; turn += 4) consider(turn);
  const centre = bestTurn;
  if (centre > 0) {
    for (let turn = Math.max(2, centre - 3); turn <= Math.min(n - 1, centre + 3); turn++) {
      if (turn !== centre) consider(turn);
    }
  } else {
    // A narrow window of possible inflections can slip between every fourth node.
    for (let turn = 2; turn < n; turn++) consider(turn);
  }
  return best;
}

/** Least jerk with accelerations not negative before node `turn` and not positive from it on. */
function signedLeastJerk(
  rows: readonly Float64Array[],
  wanted: readonly number[],
  turn: number,
): Float64Array | null {
  const n = rows[0].length;
  const sign = (i: number): number => (i < turn ? 1 : -1);
  // Points as a heavy penalty while the active set is sought; exact afterwards.
  const matrix = Array.from({ length: n }, (_, i) =>
    Float64Array.from({ length: n }, (_, j) => {
      let entry = difference(i, j, n);
      for (const row of rows) entry += POINT_WEIGHT * row[i] * row[j];
      return sign(i) * sign(j) * entry;
    }),
  );
  const right = Float64Array.from({ length: n }, (_, i) =>
    rows.reduce((sum, row, r) => sum + POINT_WEIGHT * sign(i) * row[i] * wanted[r], 0),
  );
  const active = nonNegative(matrix, right);
  if (active === null || active.length < rows.length) return null;
  const a = leastJerk(rows, wanted, active);
  if (a === null) return null;
  const largest = a.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  for (let i = 0; i < n; i++) {
    if (sign(i) * a[i] < -1e-6 * largest) return null;
    if (sign(i) * a[i] < 0) a[i] = 0;
  }
  // Zeroing what rounding left must not have moved the points.
  const missed = rows.some(
    (row, r) => Math.abs(row.reduce((sum, w, i) => sum + w * a[i], 0) - wanted[r]) > 1e-7,
  );
  return missed ? null : a;
}

/** Indices that stay positive in the minimum of y'My/2 - b'y with y >= 0, by block principal pivoting. */
function nonNegative(matrix: readonly Float64Array[], right: Float64Array): number[] | null {
  const n = right.length;
  const inside = new Array<boolean>(n).fill(true);
  let fewest = n + 1;
  let patience = 3;
  for (let iteration = 0; iteration < 200; iteration++) {
    const set = inside.flatMap((isIn, i) => (isIn ? [i] : []));
    const system = set.map((i) => {
      const row = new Float64Array(set.length + 1);
      set.forEach((j, column) => {
        row[column] = matrix[i][j];
      });
      row[set.length] = right[i];
      return row;
    });
    const y = set.length > 0 ? solve(system) : new Float64Array(0);
    if (y === null) return null;
    const scale = y.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const wrong: number[] = [];
    set.forEach((i, k) => {
      if (y[k] < -1e-10 * scale) wrong.push(i);
    });
    for (let i = 0; i < n; i++) {
      if (inside[i]) continue;
      let gradient = -right[i];
      let size = Math.abs(right[i]);
      set.forEach((j, k) => {
        gradient += matrix[i][j] * y[k];
        size += Math.abs(matrix[i][j] * y[k]);
      });
      if (gradient < -1e-12 * size) wrong.push(i);
    }
    if (wrong.length === 0) return set;
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

/** Gaussian elimination with partial pivoting on an augmented matrix, which it overwrites; null if singular. */
function solve(matrix: Float64Array[]): Float64Array | null {
  const n = matrix.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(matrix[row][column]) > Math.abs(matrix[pivot][column])) pivot = row;
    }
    if (!(Math.abs(matrix[pivot][column]) > 1e-14)) return null;
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
