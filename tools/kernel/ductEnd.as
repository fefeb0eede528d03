// The flow through the end of a duct, as packages/core/src/network/ductEnd.ts has it.
import { get, put } from './columns';
import { B, GAMMA, H, P, R, RHO, T, W } from './gas';
import { pow, powerNearOne } from './power';

@inline const SHUT = 1e-7;
@inline const MAX_ITERATIONS = 12;
@inline const TOLERANCE = 1e-6;
@inline const SETTLED = 1e-4;
@inline const LAST_STEP = 1e-3;
@inline const SHORT_OF_SONIC = 0.6;
@inline const NEVER_CHOKED = 0.6066;
@inline const STILL = 1e-7;

/** What stands in a flow, by number, see `END` of the script. */
@inline function putFlow(flow: usize, mass: f64, burned: f64, energy: f64, force: f64, speed: f64): void {
  put(flow, 0, mass);
  put(flow, 1, burned);
  put(flow, 2, energy);
  put(flow, 3, force);
  put(flow, 4, speed);
}

export function solveDuctEnd(face: usize, volume: usize, area: f64, ductArea: f64, start: f64, flow: usize): void {
  const gamma = get(face, GAMMA);
  const k = 2 / (gamma - 1);
  const c = sqrt(gamma * get(face, R) * get(face, T));
  const wall = stopWave(face, k, c);
  if (!(area > SHUT)) {
    putFlow(flow, 0, 0, 0, wall * ductArea, 0);
    return;
  }
  const pv = get(volume, P);
  if (wall > pv) outflow(face, pv, area, ductArea, start, wall, c, flow);
  else if (!(wall < NEVER_CHOKED * pv && inflowAtSound(face, volume, area, ductArea, start, wall, c, flow)))
    inflow(face, volume, area, ductArea, start, wall, c, flow);
}

@inline function stopWave(face: usize, k: f64, c: f64): f64 {
  const v = get(face, W) / (k * c);
  const x = 1 + v;
  let q = 1 + (1.0 / 9) * (k - 8) * v;
  q = 1 + (1.0 / 8) * (k - 7) * v * q;
  q = 1 + (1.0 / 7) * (k - 6) * v * q;
  q = 1 + (1.0 / 6) * (k - 5) * v * q;
  q = 1 + (1.0 / 5) * (k - 4) * v * q;
  q = 1 + (1.0 / 4) * (k - 3) * v * q;
  q = 1 + (1.0 / 3) * (k - 2) * v * q;
  q = 1 + (1.0 / 2) * (k - 1) * v * q;
  const px = get(face, P) * x * x;
  return v > -0.2 && v < 0.2 && k < 10 ? px * (1 + k * v * q) : px * pow(x, k);
}

function faster(face: usize, ductArea: f64, start: f64, flow: usize): void {
  const w = get(face, W);
  const m = get(face, RHO) * w * ductArea;
  putFlow(
    flow,
    m,
    m * get(face, B),
    m * (get(face, H) + 0.5 * w * w),
    get(face, P) * ductArea + m * w,
    start,
  );
}

function sonicShare(mach: f64, gamma: f64): f64 {
  return mach * pow((2 + (gamma - 1) * mach * mach) / (gamma + 1), -(gamma + 1) / (2 * (gamma - 1)));
}

function outflow(
  face: usize,
  pv: f64,
  area: f64,
  ductArea: f64,
  start: f64,
  wall: f64,
  c: f64,
  flow: usize,
): void {
  const gamma = get(face, GAMMA);
  const p = get(face, P);
  const rho = get(face, RHO);
  const wi = get(face, W);
  if (wi >= c && area >= ductArea * sonicShare(wi / c, gamma)) {
    faster(face, ductArea, start, flow);
    return;
  }
  const k = 2 / (gamma - 1);
  const gk = gamma * k;
  const ratio = ductArea / area;
  const drop = (2 * (wall - pv)) / rho;
  const perGamma = 1 / gamma;
  const pr0 = pv / p;
  const y0 = powerNearOne(pr0, perGamma);
  let low = 0.0;
  let high = (c * k + wi) / (1 + k);
  const jet = drop / (c + sqrt(c * c + max(ratio * ratio - 1, 0) * drop));
  let w = jet * start;
  if (!(w > 0 && w < high)) w = min(jet, 0.999 * high);
  const faint = STILL * rho * c * ductArea;
  const still = faint * faint;
  const perKC = 1 / (k * c);
  const perKCC = perKC / c;
  const rise = gamma / c;
  const force = area * p;
  const square0 = (force * force * gamma * gk) / (c * c);
  let m = 0.0;
  let x = 1.0;
  let density = 1.0;
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
    const square = square0 * q * q * z;
    const e = y * (y - pr);
    const g = m * m - square * e;
    if (abs(g) <= still) break;
    if (g > 0) high = w;
    else low = w;
    const sound = c * x;
    const free = 1 - w / sound;
    const eSlope = choked ? 0 : y * (pr + (pr - 2 * y) * perGamma);
    const slope = free * (2 * m * rhoFace * ductArea + square * ((1 + perGamma) * e + eSlope) * rise * x * perZ);
    const dw = -g / slope;
    if (abs(dw) <= LAST_STEP * w && w < SHORT_OF_SONIC * sound) {
      w += dw;
      density *= 1 - dw / sound;
      x -= dw * perKC;
      m = rho * density * w * ductArea;
      break;
    }
    if (abs(g) <= TOLERANCE * m * m && abs(dw) <= SETTLED * w) break;
    w += dw;
    if (!(w > low && w < high)) w = 0.5 * (low + high);
  }
  putFlow(
    flow,
    m,
    m * get(face, B),
    m * (get(face, H) + get(face, R) * get(face, T) * (0.5 * gk) * (x * x - 1) + 0.5 * w * w),
    p * x * x * density * ductArea + m * w,
    w / jet,
  );
}

function inflowAtSound(
  face: usize,
  volume: usize,
  area: f64,
  ductArea: f64,
  start: f64,
  wall: f64,
  c: f64,
  flow: usize,
): bool {
  const gamma0 = get(volume, GAMMA);
  const RT = (2 * get(volume, R) * get(volume, T)) / (gamma0 + 1);
  const critical = powerNearOne(2 / (gamma0 + 1), gamma0 / (gamma0 - 1));
  const p = critical * get(volume, P) * min(1, area / ductArea);
  if (!(wall < p)) return false;
  const k = 2 / (get(face, GAMMA) - 1);
  const speed = sqrt(gamma0 * RT);
  const x = 1 + (get(face, W) + speed) / (k * c);
  if (!(get(face, P) * powerNearOne(x, k + 2) < p)) return false;
  const m = (p / RT) * speed * ductArea;
  putFlow(flow, -m, -m * get(volume, B), -m * get(volume, H), p * ductArea + m * speed, start);
  return true;
}

function inflow(
  face: usize,
  volume: usize,
  area: f64,
  ductArea: f64,
  start: f64,
  wall: f64,
  c: f64,
  flow: usize,
): void {
  const gamma = get(face, GAMMA);
  const p = get(face, P);
  const wi = get(face, W);
  const k = 2 / (gamma - 1);
  const p0 = get(volume, P);
  const T0 = get(volume, T);
  const R0 = get(volume, R);
  const gamma0 = get(volume, GAMMA);
  const cp0 = (gamma0 * R0) / (gamma0 - 1);
  const rho0 = p0 / (R0 * T0);
  const ratio = ductArea / area;
  const drop = (2 * (p0 - wall)) / rho0;
  const z0 = (get(face, RHO) * c) / rho0;
  const force = area * p0;
  const square = (2 * cp0 * (force * force)) / (R0 * R0 * T0);
  let low = 0.0;
  const sonic = sqrt((2 * gamma0 * R0 * T0) / (gamma0 + 1));
  let high = sonic;
  const jet = drop / (z0 + sqrt(z0 * z0 + ratio * ratio * drop));
  let s = -jet * start;
  if (!(s > 0 && s < high)) s = min(jet, 0.999 * high);
  const faint = STILL * rho0 * sqrt(gamma0 * R0 * T0) * ductArea;
  const still = faint * faint;
  const perKC = 1 / (k * c);
  const perCp = 1 / cp0;
  const perGamma = 1 / gamma0;
  const perP0 = 1 / p0;
  const perR0 = 1 / R0;
  let m = 0.0;
  let pFace = wall;
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
    if (abs(g) <= still) break;
    if (g > 0) high = s;
    else low = s;
    const rise = (get(face, RHO) * density * c * x) / pFace;
    const eSlope = choked ? 0 : y * ((2 * y - pr) * perGamma - pr);
    const slope = 2 * m * (rhoFace * ductArea + m * (rise + s * perCp * perT)) - square * eSlope * rise;
    const ds = -g / slope;
    if (abs(ds) <= LAST_STEP * s && s < SHORT_OF_SONIC * sonic) {
      s += ds;
      pFace *= 1 + rise * ds;
      m = ((pFace * s * perR0) / (T0 - 0.5 * s * s * perCp)) * ductArea;
      break;
    }
    if (abs(g) <= TOLERANCE * m * m && abs(ds) <= SETTLED * s) break;
    s += ds;
    if (!(s > low && s < high)) s = 0.5 * (low + high);
  }
  putFlow(flow, -m, -m * get(volume, B), -m * get(volume, H), pFace * ductArea + m * s, -s / jet);
}
