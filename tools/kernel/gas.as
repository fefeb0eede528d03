// A blend of fresh and burned gas read from the tables, as packages/core/src/gas/frozenBlend.ts has it, and what connections see of it, as
// packages/core/src/network/side.ts has. `gas` is a block whose first numbers are those of the tables, see BLOCK in networkMemory.ts.
import { get, put } from './columns';

/** State of a side, by number, see `SIDE` of the script. */
@inline export const P = 0;
@inline export const T = 1;
@inline export const R = 2;
@inline export const GAMMA = 3;
@inline export const B = 4;
@inline export const H = 5;
@inline export const RHO = 6;
@inline export const W = 7;
@inline export const E = 8;

@inline
export function frozenR(gas: usize, b: f64): f64 {
  return get(gas, 4) + b * (get(gas, 5) - get(gas, 4));
}

@inline function blend(freshU: usize, burnedU: usize, i: i32, b: f64): f64 {
  return get(freshU, i) + b * (get(burnedU, i) - get(freshU, i));
}

/** Cell of the tables that holds a temperature so many steps above their first. */
@inline function cellOf(gas: usize, steps: f64): i32 {
  const i = floor(steps);
  return i > 0 ? <i32>min(i, get(gas, 6)) : 0;
}

@inline
export function frozenU(gas: usize, hot: f64, b: f64): f64 {
  const freshU = <usize>get(gas, 0);
  const burnedU = <usize>get(gas, 1);
  const steps = (hot - get(gas, 2)) / get(gas, 3);
  const i = cellOf(gas, steps);
  const low = blend(freshU, burnedU, i, b);
  const rise = blend(freshU, burnedU, i + 1, b) - low;
  return low + (steps - <f64>i) * rise;
}

/** What connections see of gas whose density, specific energy and burned share stand in `side`, the search beginning at its temperature. */
export function writeSide(gas: usize, side: usize): void {
  const freshU = <usize>get(gas, 0);
  const burnedU = <usize>get(gas, 1);
  const tMin = get(gas, 2);
  const dT = get(gas, 3);
  const last = <i32>get(gas, 6);
  const u = get(side, E);
  const b = min(max(get(side, B), 0), 1);
  let i = cellOf(gas, (get(side, T) - tMin) / dT);
  let low = blend(freshU, burnedU, i, b);
  let high = blend(freshU, burnedU, i + 1, b);
  while (u >= high && i < last) {
    i++;
    low = high;
    high = blend(freshU, burnedU, i + 1, b);
  }
  while (u < low && i > 0) {
    i--;
    high = low;
    low = blend(freshU, burnedU, i, b);
  }
  const hot = tMin + dT * (<f64>i + (u - low) / (high - low));
  const Rb = frozenR(gas, b);
  put(side, T, hot);
  put(side, P, get(side, RHO) * Rb * hot);
  put(side, R, Rb);
  put(side, GAMMA, 1 + Rb / ((high - low) / dT));
  put(side, B, b);
  put(side, H, u + Rb * hot);
  put(side, W, 0);
}
