// Pressure and temperatures of a cylinder's gas, as packages/core/src/network/zones.ts has them.
import { get, put } from './columns';
import { GAS, M, RESIDUAL, S, START_P, START_TB, TB, TM, TU, U, V, X } from './cylinder';
import { B, blendOfEntropy, blendOfTemperature, E, FREEZE, frozenR, GAMMA, H, P, R, RHO, T, writeSide } from './gas';
import { equilibriumPoint, POINT_LNP, POINT_R, POINT_RLNP, POINT_RT, POINT_T, POINT_U, POINT_ULNP, POINT_UT } from './gas';
import { BLEND_B, BLEND_CV, BLEND_S, BLEND_T, BLEND_U } from './gas';
import { log } from './power';

/** Scratch in the block of a cylinder. */
@inline const POINT: usize = 51;
@inline const BLEND: usize = 59;

/** ln(1 bar / 1 Pa): of 1e5. */
@inline const LN_BAR = 11.512925464970229;

/** One zone: a frozen blend, or above the freeze temperature fresh gas with burned gas at equilibrium. */
export function decodeOneZone(cylinder: usize, side: usize): void {
  const gas = <usize>get(cylinder, GAS);
  const m = get(cylinder, M);
  const volume = get(cylinder, V);
  put(side, RHO, m / volume);
  writeSide(gas, side);
  if (get(side, T) <= get(gas, FREEZE)) return;
  const point = cylinder + (POINT << 3);
  const blend = cylinder + (BLEND << 3);
  const e = get(side, E);
  let hot = get(side, T);
  let p = get(side, P);
  let Rm = get(side, R);
  const share = get(side, B);
  const freshR = get(gas, 4);
  for (let i = 0; i < 8; i++) {
    put(point, POINT_T, hot);
    put(point, POINT_LNP, log(p));
    equilibriumPoint(gas, point);
    put(blend, BLEND_T, hot);
    put(blend, BLEND_B, 0);
    blendOfTemperature(gas, blend);
    const u = (1 - share) * get(blend, BLEND_U) + share * get(point, POINT_U);
    const cv = (1 - share) * get(blend, BLEND_CV) + share * get(point, POINT_UT);
    const d = (e - u) / cv;
    hot += d;
    Rm = (1 - share) * freshR + share * (get(point, POINT_R) + get(point, POINT_RT) * d);
    p = (m * Rm * hot) / volume;
    if (abs(d) < 1e-7 * hot) break;
  }
  put(side, T, hot);
  put(side, P, p);
  put(side, R, Rm);
  put(blend, BLEND_T, hot);
  put(blend, BLEND_B, share);
  blendOfTemperature(gas, blend);
  put(side, GAMMA, 1 + Rm / get(blend, BLEND_CV));
  put(side, H, e + Rm * hot);
}

/** Two zones at one pressure: Newton's method on pressure and burned temperature. */
export function decodeTwoZones(cylinder: usize, side: usize): void {
  const gas = <usize>get(cylinder, GAS);
  const m = get(cylinder, M);
  const energy = get(cylinder, U);
  const s = get(cylinder, S);
  const volume = get(cylinder, V);
  const residual = get(cylinder, RESIDUAL);
  const point = cylinder + (POINT << 3);
  const blend = cylinder + (BLEND << 3);
  const mb = m * get(cylinder, X);
  const mu = m - mb;
  const Ru = frozenR(gas, residual);
  let p = get(cylinder, START_P);
  let Tb = max(get(cylinder, START_TB), 1200);
  let Tu = get(cylinder, TU);
  put(blend, BLEND_T, Tu);
  put(blend, BLEND_B, residual);
  for (let i = 0; i < 20; i++) {
    const lnP = log(p);
    put(blend, BLEND_S, s + Ru * (lnP - LN_BAR));
    blendOfEntropy(gas, blend);
    Tu = get(blend, BLEND_T);
    const cvu = get(blend, BLEND_CV);
    const dTu = (Ru * Tu) / ((cvu + Ru) * p);
    put(point, POINT_T, Tb);
    put(point, POINT_LNP, lnP);
    equilibriumPoint(gas, point);
    const Rb = get(point, POINT_R);
    const f1 = mu * get(blend, BLEND_U) + mb * get(point, POINT_U) - energy;
    const f2 = mu * Ru * Tu + mb * Rb * Tb - p * volume;
    const a11 = mu * cvu * dTu + (mb * get(point, POINT_ULNP)) / p;
    const a12 = mb * get(point, POINT_UT);
    const a21 = mu * Ru * dTu + (mb * Tb * get(point, POINT_RLNP)) / p - volume;
    const a22 = mb * (Rb + Tb * get(point, POINT_RT));
    const determinant = a11 * a22 - a12 * a21;
    const dp = (f2 * a12 - f1 * a22) / determinant;
    let dTb = (f1 * a21 - f2 * a11) / determinant;
    if (dTb > 400) dTb = 400;
    else if (dTb < -400) dTb = -400;
    p += max(-0.3 * p, min(0.3 * p, dp));
    Tb += dTb;
    if (abs(dp) < 1e-9 * p && abs(dTb) < 1e-7 * Tb) break;
  }
  const gasR = mu * Ru + mb * get(point, POINT_R);
  put(cylinder, TU, Tu);
  put(cylinder, TB, Tb);
  put(cylinder, TM, (p * volume) / gasR);
  put(side, P, p);
  put(side, T, get(cylinder, TM));
  put(side, R, gasR / m);
}
