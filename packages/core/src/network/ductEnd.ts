/** The end of a duct: outgoing characteristic and nozzle solved together, or a wall. */
import { powerNearOne } from '../numerics/powerNearOne.ts';
import type { Duct } from './duct.ts';
import { SIDE } from './side.ts';

/**
 * Flow through an end, positive out of the duct: mass [kg/s], burned mass [kg/s], energy [W], momentum with pressure [N].
 * `speed` is the velocity at the face over that of an incompressible jet [-]: a later search may start from it.
 */
export const END = { mass: 0, burned: 1, energy: 2, force: 3, speed: 4 } as const;
export const END_SIZE = 5;

/**
 * Areas of an end [m2], effective of the nozzle and geometric of the duct; where the search starts, a `speed` of {@link END},
 * 0 for none; and what is worked out from the face alone: pressure at a wall in the nozzle's place [Pa] and sound speed [m/s].
 * In an array, since numbers handed from function to function are put on the heap one by one.
 */
export const NOZZLE = { area: 0, ductArea: 1, start: 2, wall: 3, c: 4 } as const;
export const NOZZLE_SIZE = 5;

/** Below this area [m2] an end is a wall: a tenth of a square millimetre. */
export const SHUT = 1e-7;
const MAX_ITERATIONS = 12;
/** Relative errors of the squared flow and of the speed; conservation doesn't depend on them, both sides get the same flow. */
const TOLERANCE = 1e-6;
const SETTLED = 1e-4;
/**
 * Relative error of the squared flow from which one more step of Newton's method, taken to first order in the other
 * quantities too, leaves less than two hundred-thousandths: if the step is at most this share of the speed, and short of sonic
 * flow, where the flow hardly changes with the speed.
 */
const NEARLY = 3e-4;
const LAST_STEP = 1e-3;
const SHORT_OF_SONIC = 0.6;
/** Flow taken for none, as a share of the flow at sonic speed. */
const STILL = 1e-7;

/** State at the duct's end face, extrapolated from the end cell, into `face` (velocity positive out of the duct). */
export function ductFace(duct: Duct, right: boolean, face: Float64Array): void {
  const { cells: n, slope, tables } = duct;
  const i = right ? n - 1 : 0;
  const half = right ? 0.5 : -0.5;
  const rho = duct.rho[i] + half * slope[i];
  const p = duct.p[i] + half * slope[2 * n + i];
  const u = (duct.u[i] * duct.cellArea[i] + half * slope[n + i]) / duct.faceArea[right ? n : 0];
  let b = duct.b[i] + half * slope[3 * n + i];
  if (b < 0) b = 0;
  else if (b > 1) b = 1;
  const R = tables.freshR + b * (tables.burnedR - tables.freshR);
  const T = p / (rho * R);
  face[SIDE.p] = p;
  face[SIDE.T] = T;
  face[SIDE.R] = R;
  face[SIDE.gamma] = 1 + R / duct.cv[i];
  face[SIDE.b] = b;
  face[SIDE.h] = duct.e[i] + duct.cv[i] * (T - duct.T[i]) + duct.eBurn[i] * (b - duct.b[i]) + R * T;
  face[SIDE.rho] = rho;
  face[SIDE.w] = right ? u : -u;
}

/**
 * Flow through a nozzle of effective area `area` between a duct's face (area `ductArea`) and a volume at rest.
 *
 * Out of the duct: isentropic from the duct's stagnation state to the volume's pressure in the throat. Into the
 * duct: isentropic from the volume to the throat at the duct's pressure, the jet's excess velocity lost (constant
 * pressure, constant enthalpy). The duct's state moves along the outgoing characteristic, u + 2 c / (gamma - 1)
 * and entropy kept.
 *
 * @param face - state of the duct's end, see {@link ductFace}
 * @param volume - state of the volume, stagnation
 * @param nozzle - areas and where the search starts, see {@link NOZZLE}
 * @param out - flow, see {@link END}
 * @see Benson, The Thermodynamics and Gas Dynamics of Internal-Combustion Engines, vol. 1 (1982), ch. 4: partially open end
 */
export function solveDuctEnd(
  face: Float64Array,
  volume: Float64Array,
  nozzle: Float64Array,
  out: Float64Array,
): void {
  stopWave(face, nozzle);
  const pWall = nozzle[NOZZLE.wall];
  if (!(nozzle[NOZZLE.area] > SHUT)) {
    out[END.mass] = 0;
    out[END.burned] = 0;
    out[END.energy] = 0;
    out[END.force] = pWall * nozzle[NOZZLE.ductArea];
    out[END.speed] = 0;
    return;
  }
  if (pWall > volume[SIDE.p]) outflow(face, volume, nozzle, out);
  else inflow(face, volume, nozzle, out);
}

/**
 * Pressure at a wall that stops the wave at the face, and sound speed there, into `nozzle`: p (1 + w / (k c))^(k + 2) with
 * k = 2 / (gamma - 1), by the binomial series, to 1e-6 wherever it is taken. Written out, since a call of the general
 * power here puts its numbers on the heap, at every end and stage.
 */
function stopWave(face: Float64Array, nozzle: Float64Array): void {
  const p = face[SIDE.p];
  const gamma = face[SIDE.gamma];
  const k = 2 / (gamma - 1);
  const c = Math.sqrt(gamma * face[SIDE.R] * face[SIDE.T]);
  const v = face[SIDE.w] / (k * c);
  const x = 1 + v;
  let q = 1 + (1 / 9) * (k - 8) * v;
  q = 1 + (1 / 8) * (k - 7) * v * q;
  q = 1 + (1 / 7) * (k - 6) * v * q;
  q = 1 + (1 / 6) * (k - 5) * v * q;
  q = 1 + (1 / 5) * (k - 4) * v * q;
  q = 1 + (1 / 4) * (k - 3) * v * q;
  q = 1 + (1 / 3) * (k - 2) * v * q;
  q = 1 + (1 / 2) * (k - 1) * v * q;
  nozzle[NOZZLE.wall] = p * x * x * (v > -0.2 && v < 0.2 && k < 10 ? 1 + k * v * q : x ** k);
  nozzle[NOZZLE.c] = c;
}

/** Duct to volume. The unknown is the velocity at the face [m/s]. */
function outflow(face: Float64Array, volume: Float64Array, nozzle: Float64Array, out: Float64Array): void {
  const area = nozzle[NOZZLE.area];
  const ductArea = nozzle[NOZZLE.ductArea];
  const c = nozzle[NOZZLE.c];
  const pv = volume[SIDE.p];
  const gamma = face[SIDE.gamma];
  const p = face[SIDE.p];
  const rho = face[SIDE.rho];
  const wi = face[SIDE.w];
  const k = 2 / (gamma - 1);
  const gk = gamma * k;
  const ratio = ductArea / area;
  const drop = (2 * (nozzle[NOZZLE.wall] - pv)) / rho;
  const critical = powerNearOne(2 / (gamma + 1), 0.5 * gk);
  const criticalY = critical * (gamma + 1) * 0.5;
  const y0 = powerNearOne(pv / p, 1 / gamma);
  let low = 0;
  let high = (c * k + wi) / (1 + k);
  const jet = drop / (c + Math.sqrt(c * c + Math.max(ratio * ratio - 1, 0) * drop));
  let w = jet * nozzle[NOZZLE.start];
  if (!(w > 0 && w < high)) w = Math.min(jet, 0.999 * high);
  const still = (STILL * rho * c * ductArea) ** 2;
  let m = 0;
  let x = 1;
  let density = 1;
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    x = 1 + (wi - w) / (k * c);
    density = powerNearOne(x, k);
    const rhoFace = rho * density;
    m = rhoFace * w * ductArea;
    const z = x * x + (w * w) / (k * c * c);
    const q = powerNearOne(z, 0.5 * k);
    const p0 = p * q * z;
    let pr = pv / p0;
    let y = y0 / q;
    const choked = pr < critical;
    if (choked) {
      pr = critical;
      y = criticalY;
    }
    // Squares of the flows are compared: near rest the nozzle's flow goes with a root, whose slope Newton can't follow.
    const square = ((area * p0) ** 2 * gamma * gk) / (c * c * z);
    const e = y * (y - pr);
    const g = m * m - square * e;
    if (Math.abs(g) <= still) break;
    if (g > 0) high = w;
    else low = w;
    // Along the characteristic d rho = -rho dw / c and d p0 = -rho c (1 - M) dw.
    const free = 1 - w / (c * x);
    const eSlope = choked ? 0 : y * (pr + (pr - 2 * y) / gamma);
    const slope =
      2 * m * rhoFace * ductArea * free +
      (square * ((1 + 1 / gamma) * e + eSlope) * rhoFace * c * x * free) / p0;
    const dw = -g / slope;
    if (Math.abs(g) <= NEARLY * m * m && Math.abs(dw) <= LAST_STEP * w && w < SHORT_OF_SONIC * c * x) {
      w += dw;
      density *= 1 - dw / (c * x);
      x -= dw / (k * c);
      m = rho * density * w * ductArea;
      break;
    }
    if (Math.abs(g) <= TOLERANCE * m * m && Math.abs(dw) <= SETTLED * w) break;
    w += dw;
    if (!(w > low && w < high)) w = 0.5 * (low + high);
  }
  out[END.mass] = m;
  out[END.burned] = m * face[SIDE.b];
  out[END.energy] = m * (face[SIDE.h] + face[SIDE.R] * face[SIDE.T] * (0.5 * gk) * (x * x - 1) + 0.5 * w * w);
  out[END.force] = p * x * x * density * ductArea + m * w;
  out[END.speed] = w / jet;
}

/** Volume to duct. The unknown is the speed into the duct [m/s]. */
function inflow(face: Float64Array, volume: Float64Array, nozzle: Float64Array, out: Float64Array): void {
  const area = nozzle[NOZZLE.area];
  const ductArea = nozzle[NOZZLE.ductArea];
  const pWall = nozzle[NOZZLE.wall];
  const c = nozzle[NOZZLE.c];
  const gamma = face[SIDE.gamma];
  const p = face[SIDE.p];
  const wi = face[SIDE.w];
  const k = 2 / (gamma - 1);
  const p0 = volume[SIDE.p];
  const T0 = volume[SIDE.T];
  const R0 = volume[SIDE.R];
  const gamma0 = volume[SIDE.gamma];
  const cp0 = (gamma0 * R0) / (gamma0 - 1);
  const rho0 = p0 / (R0 * T0);
  const ratio = ductArea / area;
  const drop = (2 * (p0 - pWall)) / rho0;
  const z0 = (face[SIDE.rho] * c) / rho0;
  const critical = powerNearOne(2 / (gamma0 + 1), gamma0 / (gamma0 - 1));
  const square = (2 * cp0 * (area * p0) ** 2) / (R0 * R0 * T0);
  let low = 0;
  // Sonic in the duct is as fast as a jet that fills it can be.
  let high = Math.sqrt((2 * gamma0 * R0 * T0) / (gamma0 + 1));
  const jet = drop / (z0 + Math.sqrt(z0 * z0 + ratio * ratio * drop));
  let s = -jet * nozzle[NOZZLE.start];
  if (!(s > 0 && s < high)) s = Math.min(jet, 0.999 * high);
  const still = (STILL * rho0 * Math.sqrt(gamma0 * R0 * T0) * ductArea) ** 2;
  let m = 0;
  let pFace = pWall;
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    const x = 1 + (wi + s) / (k * c);
    const density = powerNearOne(x, k);
    pFace = p * x * x * density;
    const T = T0 - (0.5 * s * s) / cp0;
    const rhoFace = pFace / (R0 * T);
    m = rhoFace * s * ductArea;
    let pr = pFace / p0;
    const choked = pr < critical;
    if (choked) pr = critical;
    const y = powerNearOne(pr, 1 / gamma0);
    const e = y * (y - pr);
    const g = m * m - square * e;
    if (Math.abs(g) <= still) break;
    if (g > 0) high = s;
    else low = s;
    // Along the characteristic dp = rho c ds, of the gas that was in the duct.
    const rise = (face[SIDE.rho] * density * c * x) / pFace;
    const eSlope = choked ? 0 : y * ((2 * y - pr) / gamma0 - pr);
    const slope = 2 * m * (rhoFace * ductArea + m * (rise + s / (cp0 * T))) - square * eSlope * rise;
    const ds = -g / slope;
    if (Math.abs(g) <= NEARLY * m * m && Math.abs(ds) <= LAST_STEP * s) {
      s += ds;
      pFace *= 1 + rise * ds;
      m = ((pFace * s) / (R0 * (T0 - (0.5 * s * s) / cp0))) * ductArea;
      break;
    }
    if (Math.abs(g) <= TOLERANCE * m * m && Math.abs(ds) <= SETTLED * s) break;
    s += ds;
    if (!(s > low && s < high)) s = 0.5 * (low + high);
  }
  out[END.mass] = -m;
  out[END.burned] = -m * volume[SIDE.b];
  out[END.energy] = -m * volume[SIDE.h];
  out[END.force] = pFace * ductArea + m * s;
  out[END.speed] = -s / jet;
}
