/** The combination of vectors, shares summing to one, that is shortest. */
import { dot } from './dot.ts';

/** Largest share that is believed [-]: a larger one would rest on small differences of nearly equal vectors. */
const LARGEST = 40;
/** A difference counts as new where at least this much of its length is not along the others [-]. */
const OWN = 1e-3;

/** What comes of a search for the shortest combination. */
export interface LeastCombination {
  /** Share of each vector, summing to one. */
  readonly shares: readonly number[];
  /** Length of the combination over that of the last vector [-]. */
  readonly left: number;
}

/**
 * Shares of the vectors whose combination is shortest.
 *
 * Vectors that nearly depend on each other give shares that mean nothing. The oldest are then left out (share 0) until the rest are
 * independent and their shares small.
 *
 * @param vectors - of one length, the oldest first
 * @returns null where not even the last two are independent
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

/** Shares g that make last + sum g d shortest, and the square of that length, by Gram and Schmidt; null where the d depend on each other. */
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
