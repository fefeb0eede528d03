/**
 * exp(x) - 1 and ln(1 + x) by the two functions alone that WebAssembly calls without putting numbers on the heap, to a few roundings
 * however small x is.
 *
 * What exp(x) or 1 + x has lost to rounding, its logarithm or difference has lost too: the ratio of the two is smooth near one, so that it
 * makes good for both. After W. Kahan; see Goldberg, ACM Computing Surveys 23 (1991) 5, theorem 4.
 */

/** exp(x) - 1 [-]. */
export function expLessOne(x: number): number {
  const e = Math.exp(x);
  if (e === 1) return x;
  const less = e - 1;
  // Far below zero nothing is left of the exponential, and its logarithm is none.
  return less === -1 || e === Number.POSITIVE_INFINITY ? less : (less * x) / Math.log(e);
}

/** ln(1 + x) [-]. */
export function logOfOneMore(x: number): number {
  const one = 1 + x;
  return one === 1 || one === Number.POSITIVE_INFINITY ? x : (Math.log(one) * x) / (one - 1);
}
