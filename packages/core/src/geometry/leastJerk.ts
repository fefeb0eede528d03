/** Accelerations of least squared jerk that pass given lifts with one change of sign: a small quadratic programme. */
import { dot } from '../numerics/dot.ts';

/**
 * Nodal accelerations of least jerk, positive up to one node and negative from it on; null where impossible.
 *
 * Nodes are equally spaced from the seat, whose own acceleration is zero and left out. Without the sign rule this is a
 * small linear system; where its answer changes sign more than once, the inflection is sought downhill from it.
 *
 * @param rows - weights of the accelerations in each wanted quantity
 * @param wanted - its value, of the order of 1
 * @see Judice and Pires (1994), Computers Ops Res. 21(5), 587-596, for block principal pivoting (from memory)
 */
export function leastJerkHump(rows: readonly Float64Array[], wanted: readonly number[]): Float64Array | null {
  const n = rows[0].length;
  const free = Array.from({ length: n }, (_, i) => i);
  const plain = leastJerk(rows, wanted, free)?.a ?? null;
  if (plain !== null && changesSignOnce(plain)) return plain;
  return bestSigned(rows, wanted, turnAfterPeak(plain, n));
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

/** Whether positive turns to negative and stays so. Rounding is overlooked. */
function changesSignOnce(a: Float64Array): boolean {
  const tolerance = 1e-9 * a.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let turn = 0;
  while (turn < a.length && a[turn] >= -tolerance) turn++;
  return a.every((value, i) => i < turn || value <= tolerance);
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
