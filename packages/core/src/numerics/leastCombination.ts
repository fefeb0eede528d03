/** The combination of vectors, shares summing to one, that is shortest. */

/** A share beyond this hangs on differences of differences [-]. */
const LARGEST = 40;
/** A difference counts as its own where this much of it is left beside the others [-]. */
const OWN = 1e-3;

export interface LeastCombination {
  /** Share of each vector, summing to one. */
  readonly shares: readonly number[];
  /** Length of the combination over that of the last vector [-]. */
  readonly left: number;
}

/**
 * The oldest vectors are left out (share 0) as long as the rest hang together or ask for large shares.
 *
 * @param vectors - of one length, the oldest first
 * @returns null where not even the last two tell anything
 */
export function leastCombination(vectors: readonly Float64Array[]): LeastCombination | null {
  const newest = vectors.length - 1;
  for (let oldest = 0; oldest < newest; oldest++) {
    const last = vectors[newest];
    const differences = vectors.slice(oldest, newest).map((v) => v.map((x, i) => x - last[i]));
    const found = leastSquares(differences, last);
    if (found === null) continue;
    const shares = [
      ...new Array<number>(oldest).fill(0),
      ...found.shares,
      1 - found.shares.reduce((s, v) => s + v, 0),
    ];
    if (shares.every((share) => Math.abs(share) < LARGEST))
      return { shares, left: Math.sqrt(found.rest / dot(last, last)) };
  }
  return null;
}

/** Shares g that make last + sum g d shortest, and the square of that length, by Gram and Schmidt; null where the d hang together. */
function leastSquares(
  differences: readonly Float64Array[],
  last: Float64Array,
): { shares: number[]; rest: number } | null {
  const rest = last.slice();
  const q: Float64Array[] = [];
  const r: number[][] = [];
  const along: number[] = [];
  for (const difference of differences) {
    const own = difference.slice();
    r.push(q.map((other) => subtract(own, other)));
    const length = Math.sqrt(dot(own, own));
    if (!(length > OWN * Math.sqrt(dot(difference, difference)))) return null;
    r[q.length].push(length);
    for (let i = 0; i < own.length; i++) own[i] /= length;
    q.push(own);
    along.push(-subtract(rest, own));
  }
  const shares = along.slice();
  for (let k = shares.length - 1; k >= 0; k--) {
    shares[k] /= r[k][k];
    for (let j = 0; j < k; j++) shares[j] -= r[k][j] * shares[k];
  }
  return { shares, rest: dot(rest, rest) };
}

/** Takes off `v` what lies along the unit vector `u`; returns how much that was. */
function subtract(v: Float64Array, u: Float64Array): number {
  const much = dot(v, u);
  for (let i = 0; i < v.length; i++) v[i] -= much * u[i];
  return much;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
