/** The end of a duct: outgoing characteristic and nozzle solved together, or a wall. */
import { frozenR } from '../gas/frozenBlend.ts';
import { powerNearOne } from '../numerics/powerNearOne.ts';
import type { Duct, DuctEnd } from './duct.ts';
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
 * A step of Newton's method that is this share of the speed or less, taken to first order in the other quantities too, is the last:
 * the squared flow is no more bent than a parabola, so that half the square of the share is left, less than a millionth. That holds
 * short of sonic flow, where the flow hardly changes with the speed. Most searches need no second look then.
 */
const LAST_STEP = 1e-3;
const SHORT_OF_SONIC = 0.6;
/** Least pressure ratio that no gas chokes at [-]: exp(-1/2), the limit of the critical one as gamma falls to 1. */
const NEVER_CHOKED = 0.6066;
/** Flow taken for none, as a share of the flow at sonic speed. */
const STILL = 1e-7;

/** State at the face of one end of a duct, extrapolated from the end cell, into `face` (velocity positive out of the duct). */
export function ductFace(duct: Duct, at: DuctEnd, face: Float64Array): void {
  const { cells: n, slope, tables } = duct;
  const right = at === 'right';
  const i = right ? n - 1 : 0;
  const half = right ? 0.5 : -0.5;
  const rho = duct.rho[i] + half * slope[i];
  const p = duct.p[i] + half * slope[2 * n + i];
  const u = (duct.u[i] * duct.cellArea[i] + half * slope[n + i]) / duct.faceArea[right ? n : 0];
  let b = duct.b[i] + half * slope[3 * n + i];
  if (b < 0) b = 0;
  else if (b > 1) b = 1;
  const R = frozenR(tables, b);
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
 * pressure, constant enthalpy), up to the speed of sound. The duct's state moves along the outgoing characteristic,
 * u + 2 c / (gamma - 1) and entropy kept.
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
  else if (!(pWall < NEVER_CHOKED * volume[SIDE.p] && inflowAtSound(face, volume, nozzle, out)))
    inflow(face, volume, nozzle, out);
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

/** A stream faster than sound leaves an end wide enough for it as it comes: no wave runs up it to tell it of the end. */
function faster(face: Float64Array, nozzle: Float64Array, out: Float64Array): void {
  const w = face[SIDE.w];
  const area = nozzle[NOZZLE.ductArea];
  const m = face[SIDE.rho] * w * area;
  out[END.mass] = m;
  out[END.burned] = m * face[SIDE.b];
  out[END.energy] = m * (face[SIDE.h] + 0.5 * w * w);
  out[END.force] = face[SIDE.p] * area + m * w;
  out[END.speed] = nozzle[NOZZLE.start];
}

/** Share of its area through which a stream of a Mach number passes at the speed of sound (Shapiro, Compressible Fluid Flow, vol. 1 (1953), eq. 4.19; from memory). */
function sonicShare(mach: number, gamma: number): number {
  return mach * ((2 + (gamma - 1) * mach * mach) / (gamma + 1)) ** (-(gamma + 1) / (2 * (gamma - 1)));
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
  if (wi >= c && area >= ductArea * sonicShare(wi / c, gamma)) {
    faster(face, nozzle, out);
    return;
  }
  const k = 2 / (gamma - 1);
  const gk = gamma * k;
  const ratio = ductArea / area;
  const drop = (2 * (nozzle[NOZZLE.wall] - pv)) / rho;
  const perGamma = 1 / gamma;
  const pr0 = pv / p;
  const y0 = powerNearOne(pr0, perGamma);
  let low = 0;
  let high = (c * k + wi) / (1 + k);
  const jet = drop / (c + Math.sqrt(c * c + Math.max(ratio * ratio - 1, 0) * drop));
  let w = jet * nozzle[NOZZLE.start];
  if (!(w > 0 && w < high)) w = Math.min(jet, 0.999 * high);
  const faint = STILL * rho * c * ductArea;
  const still = faint * faint;
  const perKC = 1 / (k * c);
  const perKCC = perKC / c;
  const rise = gamma / c;
  const force = area * p;
  const square0 = (force * force * gamma * gk) / (c * c);
  let m = 0;
  let x = 1;
  let density = 1;
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    x = 1 + (wi - w) * perKC;
    density = powerNearOne(x, k);
    const rhoFace = rho * density;
    m = rhoFace * w * ductArea;
    const z = x * x + w * w * perKCC;
    const q = powerNearOne(z, 0.5 * k);
    const perQ = 1 / q;
    const perZ = 1 / z;
    let pr = pr0 * perQ * perZ;
    let y = y0 * perQ;
    let choked = false;
    if (pr < NEVER_CHOKED) {
      const critical = powerNearOne(2 / (gamma + 1), 0.5 * gk);
      choked = pr < critical;
      if (choked) {
        pr = critical;
        y = critical * (gamma + 1) * 0.5;
      }
    }
    // Squares of the flows are compared: near rest the nozzle's flow goes with a root, whose slope Newton can't follow.
    const square = square0 * q * q * z;
    const e = y * (y - pr);
    const g = m * m - square * e;
    if (Math.abs(g) <= still) break;
    if (g > 0) high = w;
    else low = w;
    // Along the characteristic d rho = -rho dw / c, and d p0 = -p0 gamma (1 - M) c dw / c0^2.
    const sound = c * x;
    const free = 1 - w / sound;
    const eSlope = choked ? 0 : y * (pr + (pr - 2 * y) * perGamma);
    const slope =
      free * (2 * m * rhoFace * ductArea + square * ((1 + perGamma) * e + eSlope) * rise * x * perZ);
    const dw = -g / slope;
    if (Math.abs(dw) <= LAST_STEP * w && w < SHORT_OF_SONIC * sound) {
      w += dw;
      density *= 1 - dw / sound;
      x -= dw * perKC;
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

/**
 * Volume to duct where the stream that has filled the duct goes at the speed of sound: no wave from further on reaches the end then, however
 * hard it draws, and the face keeps the pressure at which sound carries what the nozzle passes. False where the wave leaves the face at
 * more than that, so that the stream is slower.
 */
function inflowAtSound(
  face: Float64Array,
  volume: Float64Array,
  nozzle: Float64Array,
  out: Float64Array,
): boolean {
  const ductArea = nozzle[NOZZLE.ductArea];
  const p0 = volume[SIDE.p];
  const gamma0 = volume[SIDE.gamma];
  const RT = (2 * volume[SIDE.R] * volume[SIDE.T]) / (gamma0 + 1);
  const critical = powerNearOne(2 / (gamma0 + 1), gamma0 / (gamma0 - 1));
  const p = critical * p0 * Math.min(1, nozzle[NOZZLE.area] / ductArea);
  if (!(nozzle[NOZZLE.wall] < p)) return false;
  const k = 2 / (face[SIDE.gamma] - 1);
  const speed = Math.sqrt(gamma0 * RT);
  const x = 1 + (face[SIDE.w] + speed) / (k * nozzle[NOZZLE.c]);
  if (!(face[SIDE.p] * powerNearOne(x, k + 2) < p)) return false;
  const m = (p / RT) * speed * ductArea;
  out[END.mass] = -m;
  out[END.burned] = -m * volume[SIDE.b];
  out[END.energy] = -m * volume[SIDE.h];
  out[END.force] = p * ductArea + m * speed;
  out[END.speed] = nozzle[NOZZLE.start];
  return true;
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
  const force = area * p0;
  const square = (2 * cp0 * (force * force)) / (R0 * R0 * T0);
  let low = 0;
  // Sonic in the duct is as fast as a jet that fills it can be.
  const sonic = Math.sqrt((2 * gamma0 * R0 * T0) / (gamma0 + 1));
  let high = sonic;
  const jet = drop / (z0 + Math.sqrt(z0 * z0 + ratio * ratio * drop));
  let s = -jet * nozzle[NOZZLE.start];
  if (!(s > 0 && s < high)) s = Math.min(jet, 0.999 * high);
  const faint = STILL * rho0 * Math.sqrt(gamma0 * R0 * T0) * ductArea;
  const still = faint * faint;
  const perKC = 1 / (k * c);
  const perCp = 1 / cp0;
  const perGamma = 1 / gamma0;
  const perP0 = 1 / p0;
  const perR0 = 1 / R0;
  let m = 0;
  let pFace = pWall;
  for (let i = 0; i < MAX_ITERATIONS; i++) {
    const x = 1 + (wi + s) * perKC;
    const density = powerNearOne(x, k);
    pFace = p * x * x * density;
    const perT = 1 / (T0 - 0.5 * s * s * perCp);
    const rhoFace = pFace * perR0 * perT;
    m = rhoFace * s * ductArea;
    let pr = pFace * perP0;
    let choked = false;
    if (pr < NEVER_CHOKED) {
      const critical = powerNearOne(2 / (gamma0 + 1), gamma0 / (gamma0 - 1));
      choked = pr < critical;
      if (choked) pr = critical;
    }
    const y = powerNearOne(pr, perGamma);
    const e = y * (y - pr);
    const g = m * m - square * e;
    if (Math.abs(g) <= still) break;
    if (g > 0) high = s;
    else low = s;
    // Along the characteristic dp = rho c ds, of the gas that was in the duct.
    const rise = (face[SIDE.rho] * density * c * x) / pFace;
    const eSlope = choked ? 0 : y * ((2 * y - pr) * perGamma - pr);
    const slope = 2 * m * (rhoFace * ductArea + m * (rise + s * perCp * perT)) - square * eSlope * rise;
    const ds = -g / slope;
    if (Math.abs(ds) <= LAST_STEP * s && s < SHORT_OF_SONIC * sonic) {
      s += ds;
      pFace *= 1 + rise * ds;
      m = ((pFace * s * perR0) / (T0 - 0.5 * s * s * perCp)) * ductArea;
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
