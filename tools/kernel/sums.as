// What a step does to whole vectors, as packages/core/src/numerics/rungeKutta.ts has it: sums of `count` numbers.
import { get, pair, put, putPair } from './columns';

/** y + w k of a step's trial state. */
export function addScaled(y: usize, k: usize, w: f64, count: i32): void {
  const ww = f64x2.splat(w);
  let q = 0;
  for (; q + 1 < count; q += 2) putPair(y, q, f64x2.add(pair(y, q), f64x2.mul(ww, pair(k, q))));
  for (; q < count; q++) put(y, q, get(y, q) + w * get(k, q));
}

/** y + share (trial - y) + w k of a step's end. */
export function carryOver(y: usize, trial: usize, share: f64, k: usize, w: f64, count: i32): void {
  const ss = f64x2.splat(share);
  const ww = f64x2.splat(w);
  let q = 0;
  for (; q + 1 < count; q += 2) {
    const here = pair(y, q);
    const moved = f64x2.add(f64x2.mul(ss, f64x2.sub(pair(trial, q), here)), f64x2.mul(ww, pair(k, q)));
    putPair(y, q, f64x2.add(here, moved));
  }
  for (; q < count; q++) put(y, q, get(y, q) + (share * (get(trial, q) - get(y, q)) + w * get(k, q)));
}
