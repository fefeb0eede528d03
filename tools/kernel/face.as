// State at the face of a duct, as packages/core/src/network/ductEnd.ts has it.
import { get, HEAD, put } from './columns';
import { B, frozenR, GAMMA, H, P, R, RHO, T, W } from './gas';

/** State at the face of a duct of `n` cells; returns the sound speed in the cell behind it. */
export function ductFace(duct: usize, n: i32, right: bool, face: usize): f64 {
  const s = <usize>n << 3;
  const i = right ? n - 1 : 0;
  const half = right ? 0.5 : -0.5;
  const at = duct + (HEAD << 3) + (<usize>i << 3);
  const slope = at + 11 * s;
  const rho = get(at, 0) + half * get(slope, 0);
  const p = get(at + 2 * s, 0) + half * get(slope + 2 * s, 0);
  const u =
    (get(at + s, 0) * get(slope + 5 * s, 0) + half * get(slope + s, 0)) / get(slope + 7 * s, right ? 1 : 0);
  let b = get(at + 4 * s, 0) + half * get(slope + 3 * s, 0);
  if (b < 0) b = 0;
  else if (b > 1) b = 1;
  const Rb = frozenR(duct, b);
  const Tb = p / (rho * Rb);
  const cv = get(at + 6 * s, 0);
  put(face, P, p);
  put(face, T, Tb);
  put(face, R, Rb);
  put(face, GAMMA, 1 + Rb / cv);
  put(face, B, b);
  put(
    face,
    H,
    get(at + 8 * s, 0) + cv * (Tb - get(at + 3 * s, 0)) + get(at + 9 * s, 0) * (b - get(at + 4 * s, 0)) + Rb * Tb,
  );
  put(face, RHO, rho);
  put(face, W, right ? u : -u);
  return get(at + 7 * s, 0);
}
