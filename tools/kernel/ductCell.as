// Places along ducts, as packages/core/src/network/ductCell.ts has them; their numbers come in the order of cellNumbers there.
import { get, HEAD, put } from './columns';
import { B, GAMMA, H, P, R, RHO, T, W } from './gas';

@inline const DUCT = 0;
@inline const CELL = 1;
@inline const CELLS = 2;
@inline const PASSES = 3;
@inline const MIXES = 4;
@inline const SIDE = 5;
@inline const OPENING = 6;
@inline const DX = 7;
@inline const VOLUME = 8;

/** Columns of a duct, one after another. */
@inline const C_RHO = 0;
@inline const C_U = 1;
@inline const C_P = 2;
@inline const C_T = 3;
@inline const C_B = 4;
@inline const C_R = 5;
@inline const C_CV = 6;
@inline const C_C = 7;
@inline const C_E = 8;
@inline const C_SLOPE_U = 12;
@inline const C_SLOPE_P = 13;
@inline const C_AREA = 16;
@inline const C_FACE = 18;

@inline function at(duct: usize, n: i32, column: i32, i: i32): f64 {
  return get(duct + (HEAD << 3), column * n + i);
}

/** Decodes `count` places, whose blocks stand in `list`, once their ducts are. */
export function decodeCells(list: usize, count: i32): void {
  for (let j = 0; j < count; j++) {
    const place = <usize>load<i32>(list + (<usize>j << 2));
    const duct = <usize>get(place, DUCT);
    const side = <usize>get(place, SIDE);
    const n = <i32>get(place, CELLS);
    const i = <i32>get(place, CELL);
    const gasR = at(duct, n, C_R, i);
    put(side, P, pressureBeside(place, duct, n, i));
    put(side, T, at(duct, n, C_T, i));
    put(side, R, gasR);
    put(side, GAMMA, 1 + gasR / at(duct, n, C_CV, i));
    put(side, B, at(duct, n, C_B, i));
    put(side, H, at(duct, n, C_E, i) + gasR * at(duct, n, C_T, i));
    put(side, RHO, at(duct, n, C_RHO, i));
    put(side, W, at(duct, n, C_U, i));
  }
}

function pressureBeside(place: usize, duct: usize, n: i32, i: i32): f64 {
  if (n === 1) return at(duct, n, C_P, 0);
  const face = meetAt(duct, n, i > 0 ? i - 1 : 0);
  if (!(i > 0 && i < n - 1)) return get(place, PASSES) !== 0 ? 0.5 * (face + at(duct, n, C_P, i)) : face;
  const mean = 0.5 * (face + meetAt(duct, n, i));
  return get(place, MIXES) !== 0 ? max(0.5 * mean, mean + fromFaces(duct, n, i)) : mean;
}

@inline function fromFaces(duct: usize, n: i32, i: i32): f64 {
  if (i < 2 || i > n - 3) return 0;
  const before = at(duct, n, C_P, i - 1) - at(duct, n, C_P, i - 2);
  return 0.25 * (before - (at(duct, n, C_P, i + 2) - at(duct, n, C_P, i + 1)));
}

/** The pressure at the face behind cell `i` once the waves from both sides have met there. */
function meetAt(duct: usize, n: i32, i: i32): f64 {
  const k = i + 1;
  const pressures =
    at(duct, n, C_P, i) + 0.5 * at(duct, n, C_SLOPE_P, i) + (at(duct, n, C_P, k) - 0.5 * at(duct, n, C_SLOPE_P, k));
  const meeting =
    at(duct, n, C_U, i) * at(duct, n, C_AREA, i) +
    0.5 * at(duct, n, C_SLOPE_U, i) -
    (at(duct, n, C_U, k) * at(duct, n, C_AREA, k) - 0.5 * at(duct, n, C_SLOPE_U, k));
  const impedance = at(duct, n, C_RHO, i) * at(duct, n, C_C, i) + at(duct, n, C_RHO, k) * at(duct, n, C_C, k);
  return 0.5 * (pressures + (0.5 * impedance * meeting) / at(duct, n, C_FACE, k));
}

/** Raises the number at `rate` to the fastest of `count` places. */
export function raiseCells(list: usize, count: i32, rate: usize): void {
  for (let j = 0; j < count; j++) {
    const place = <usize>load<i32>(list + (<usize>j << 2));
    const duct = <usize>get(place, DUCT);
    const n = <i32>get(place, CELLS);
    const i = <i32>get(place, CELL);
    const c = at(duct, n, C_C, i);
    const here = (abs(at(duct, n, C_U, i)) + c) / get(place, DX);
    const fastest = here + (get(<usize>get(place, OPENING), 0) * c) / get(place, VOLUME);
    if (fastest > get(rate, 0)) put(rate, 0, fastest);
  }
}
