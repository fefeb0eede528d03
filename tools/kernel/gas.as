// A blend of fresh and burned gas read from the tables, as packages/core/src/gas/frozenBlend.ts has it, and what connections see of it, as
// packages/core/src/network/side.ts has. `gas` is a block whose first numbers are gasNumbers in kernelNetwork.ts.
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

/** Further numbers of a gas that a cylinder burns, in a block whose first are those of every gas: burnedNumbers in kernelNetwork.ts. */
@inline const FRESH_S = 7;
@inline const BURNED_S = 8;
@inline export const FREEZE = 9;
@inline export const FUEL_FRACTION = 10;
@inline const EQUILIBRIUM_T = 11;
@inline const EQUILIBRIUM_DT = 12;
@inline const TEMPERATURES = 13;
@inline const LNP_MIN = 14;
@inline const DLNP = 15;
@inline const PRESSURES = 16;
@inline const EQUILIBRIUM_U = 17;
@inline const EQUILIBRIUM_R = 18;

/** A blend at one temperature, by number, see `BLEND` of packages/core/src/gas/frozenBlend.ts. */
@inline export const BLEND_T = 0;
@inline export const BLEND_B = 1;
@inline export const BLEND_U = 2;
@inline export const BLEND_CV = 3;
@inline export const BLEND_S = 4;

/** Reads u and cv of a blend whose T and b are given. */
export function blendOfTemperature(gas: usize, out: usize): void {
  const freshU = <usize>get(gas, 0);
  const burnedU = <usize>get(gas, 1);
  const dT = get(gas, 3);
  const b = get(out, BLEND_B);
  const steps = (get(out, BLEND_T) - get(gas, 2)) / dT;
  const i = cellOf(gas, steps);
  const low = blend(freshU, burnedU, i, b);
  const rise = blend(freshU, burnedU, i + 1, b) - low;
  put(out, BLEND_U, low + (steps - <f64>i) * rise);
  put(out, BLEND_CV, rise / dT);
}

/** Finds T, u and cv of a blend whose s and b are given, from the T at hand. */
export function blendOfEntropy(gas: usize, out: usize): void {
  const freshU = <usize>get(gas, 0);
  const burnedU = <usize>get(gas, 1);
  const freshS = <usize>get(gas, FRESH_S);
  const burnedS = <usize>get(gas, BURNED_S);
  const tMin = get(gas, 2);
  const dT = get(gas, 3);
  const last = <i32>get(gas, 6);
  const s = get(out, BLEND_S);
  const b = get(out, BLEND_B);
  let i = cellOf(gas, (get(out, BLEND_T) - tMin) / dT);
  let low = blend(freshS, burnedS, i, b);
  let high = blend(freshS, burnedS, i + 1, b);
  while (s >= high && i < last) {
    i++;
    low = high;
    high = blend(freshS, burnedS, i + 1, b);
  }
  while (s < low && i > 0) {
    i--;
    high = low;
    low = blend(freshS, burnedS, i, b);
  }
  const share = (s - low) / (high - low);
  const lowU = blend(freshU, burnedU, i, b);
  const riseU = blend(freshU, burnedU, i + 1, b) - lowU;
  put(out, BLEND_T, tMin + dT * (<f64>i + share));
  put(out, BLEND_U, lowU + share * riseU);
  put(out, BLEND_CV, riseU / dT);
}

/** A point of the table of burned gas, by number, see `POINT` of packages/core/src/gas/equilibriumPoint.ts. */
@inline export const POINT_U = 0;
@inline export const POINT_R = 1;
@inline export const POINT_UT = 2;
@inline export const POINT_ULNP = 3;
@inline export const POINT_RT = 4;
@inline export const POINT_RLNP = 5;
@inline export const POINT_T = 6;
@inline export const POINT_LNP = 7;

/** Reads u and R of burned gas with their slopes into a point whose T and ln p are given. */
export function equilibriumPoint(gas: usize, out: usize): void {
  const hot = get(out, POINT_T);
  if (!(hot > get(gas, FREEZE))) {
    frozenPoint(gas, out);
    return;
  }
  const dLnP = get(gas, DLNP);
  const pressures = get(gas, PRESSURES);
  const x = (get(out, POINT_LNP) - get(gas, LNP_MIN)) / dLnP;
  const column = x > 0 ? min(x, pressures - 1) : 0;
  const slopeP = x === column ? 1 / dLnP : 0;
  const ip = min(floor(column), pressures - 2);
  const fp = column - ip;
  const dT = get(gas, EQUILIBRIUM_DT);
  const row = (hot - get(gas, EQUILIBRIUM_T)) / dT;
  const it = min(floor(row), get(gas, TEMPERATURES) - 2);
  const ft = row - it;
  const k = <i32>(it * pressures + ip);
  const next = k + <i32>pressures;
  for (let i = 0; i < 2; i++) {
    const values = <usize>get(gas, EQUILIBRIUM_U + i);
    const lowRise = get(values, k + 1) - get(values, k);
    const highRise = get(values, next + 1) - get(values, next);
    const low = get(values, k) + fp * lowRise;
    const high = get(values, next) + fp * highRise;
    put(out, POINT_U + i, low + ft * (high - low));
    put(out, POINT_UT + 2 * i, (high - low) / dT);
    put(out, POINT_ULNP + 2 * i, (lowRise + ft * (highRise - lowRise)) * slopeP);
  }
}

function frozenPoint(gas: usize, out: usize): void {
  const burnedU = <usize>get(gas, 1);
  const dT = get(gas, 3);
  const steps = (get(out, POINT_T) - get(gas, 2)) / dT;
  const i = cellOf(gas, steps);
  const rise = get(burnedU, i + 1) - get(burnedU, i);
  put(out, POINT_U, get(burnedU, i) + (steps - <f64>i) * rise);
  put(out, POINT_R, get(gas, 5));
  put(out, POINT_UT, rise / dT);
  put(out, POINT_ULNP, 0);
  put(out, POINT_RT, 0);
  put(out, POINT_RLNP, 0);
}
