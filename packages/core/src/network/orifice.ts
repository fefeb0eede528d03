/** Quasi-steady flow between two states at rest: carburetor, throttle, air cleaner, muffler. */
import { powerNearOne } from '../numerics/powerNearOne.ts';
import { SIDE } from './ductEnd.ts';

/** Relative pressure difference below which the square root is made straight, so that the rate stays finite. */
const STRAIGHT = 1e-4;

/**
 * Mass flow through an effective area [kg/s], positive from `a` to `b`; isentropic to the throat, choked below the
 * critical ratio. Below a relative pressure difference of 1e-4 the law is linear in the difference.
 *
 * @see Heywood, Internal Combustion Engine Fundamentals (1988), appendix C, eq. C.8 and C.9
 */
export function orificeFlow(a: Float64Array, b: Float64Array, area: number): number {
  const forward = a[SIDE.p] >= b[SIDE.p];
  const up = forward ? a : b;
  const down = forward ? b : a;
  const gamma = up[SIDE.gamma];
  const p0 = up[SIDE.p];
  let pr = down[SIDE.p] / p0;
  const critical = powerNearOne(2 / (gamma + 1), gamma / (gamma - 1));
  if (pr < critical) pr = critical;
  let scale = 1;
  if (pr > 1 - STRAIGHT) {
    scale = (1 - pr) / STRAIGHT;
    pr = 1 - STRAIGHT;
  }
  const y = powerNearOne(pr, 1 / gamma);
  const psi = Math.sqrt(((2 * gamma) / (gamma - 1)) * y * (y - pr)) * scale;
  const m = (area * p0 * psi) / Math.sqrt(up[SIDE.R] * up[SIDE.T]);
  return forward ? m : -m;
}
