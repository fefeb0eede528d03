/** Pressure and temperatures of a cylinder's gas from its mass and energy: one zone, or two while it burns. */

import { equilibriumPoint, POINT, POINT_SIZE } from '../gas/equilibriumPoint.ts';
import {
  BLEND,
  BLEND_SIZE,
  blendOfEntropy,
  blendOfTemperature,
  frozenR,
  frozenU,
} from '../gas/frozenBlend.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { SIDE, writeSide } from './side.ts';

/** What the zones are worked out for, and into. */
export interface ZonedGas {
  readonly tables: GasTables;
  readonly side: Float64Array;
  /** Burned share of the unburned zone. */
  residual: number;
  /** Where the search of two zones starts: pressure [Pa] and burned temperature [K]. */
  readonly start: { p: number; Tb: number };
  /**
   * Volume [m3], mass [kg] and burned share of mass, given, and for two zones the internal energy of both [J] and the specific
   * entropy of the unburned one [J/(kg K)]; temperatures of the unburned and burned zone and their mass mean [K], found.
   */
  readonly now: {
    V: number;
    m: number;
    x: number;
    U: number;
    s: number;
    Tu: number;
    Tb: number;
    T: number;
  };
}

/**
 * One zone: a frozen blend, or above the freeze temperature fresh gas with burned gas at equilibrium. Energy and burned share are
 * those in `side`.
 */
export function decodeOneZone(gas: ZonedGas): void {
  const { tables, side, now } = gas;
  const { m } = now;
  side[SIDE.rho] = m / now.V;
  writeSide(tables, side);
  if (side[SIDE.T] <= tables.freezeTemperature) return;
  const point = scratch;
  const e = side[SIDE.e];
  let T = side[SIDE.T];
  let p = side[SIDE.p];
  let R = side[SIDE.R];
  const share = side[SIDE.b];
  for (let i = 0; i < 8; i++) {
    point[POINT.T] = T;
    point[POINT.lnP] = Math.log(p);
    equilibriumPoint(tables, point);
    blend[BLEND.T] = T;
    blend[BLEND.b] = 0;
    blendOfTemperature(tables, blend);
    const u = (1 - share) * blend[BLEND.u] + share * point[POINT.u];
    const cv = (1 - share) * blend[BLEND.cv] + share * point[POINT.uT];
    const dT = (e - u) / cv;
    T += dT;
    R = (1 - share) * tables.freshR + share * (point[POINT.R] + point[POINT.RT] * dT);
    p = (m * R * T) / now.V;
    if (Math.abs(dT) < 1e-7 * T) break;
  }
  side[SIDE.T] = T;
  side[SIDE.p] = p;
  side[SIDE.R] = R;
  blend[BLEND.T] = T;
  blend[BLEND.b] = share;
  blendOfTemperature(tables, blend);
  side[SIDE.gamma] = 1 + R / blend[BLEND.cv];
  side[SIDE.h] = e + R * T;
}

/** Specific internal energy of gas in one zone at a temperature [K], pressure [Pa] and burned share [J/kg]: what {@link decodeOneZone} inverts. */
export function oneZoneEnergy(tables: GasTables, T: number, p: number, share: number): number {
  scratch[POINT.T] = T;
  scratch[POINT.lnP] = Math.log(p);
  equilibriumPoint(tables, scratch);
  return (1 - share) * frozenU(tables, T, 0) + share * scratch[POINT.u];
}

/** Its gas constant [J/(kg K)]. */
export function oneZoneR(tables: GasTables, T: number, p: number, share: number): number {
  scratch[POINT.T] = T;
  scratch[POINT.lnP] = Math.log(p);
  equilibriumPoint(tables, scratch);
  return (1 - share) * tables.freshR + share * scratch[POINT.R];
}

/** Scratch of the decoders: written and read within one call, never kept. */
const scratch = new Float64Array(POINT_SIZE);
const blend = new Float64Array(BLEND_SIZE);

/** ln(1 bar / 1 Pa), where tables of entropy count from. */
const LN_BAR: number = Math.log(1e5);

/**
 * Two zones at one pressure, from total energy and the unburned zone's entropy: Newton's method on pressure and
 * burned temperature. The unburned temperature follows from entropy and pressure.
 *
 * 0 = mu uu(Tu(p)) + mb ub(Tb, p) - U
 * 0 = mu Ru Tu(p) + mb Rb(Tb, p) Tb - p V
 */
export function decodeTwoZones(gas: ZonedGas): void {
  const { tables, side, now, residual, start } = gas;
  const { m, U, s, V } = now;
  const point = scratch;
  const mb = m * now.x;
  const mu = m - mb;
  const Ru = frozenR(tables, residual);
  let p = start.p;
  let Tb = Math.max(start.Tb, 1200);
  let Tu = now.Tu;
  blend[BLEND.T] = Tu;
  blend[BLEND.b] = residual;
  for (let i = 0; i < 20; i++) {
    const lnP = Math.log(p);
    blend[BLEND.s] = s + Ru * (lnP - LN_BAR);
    blendOfEntropy(tables, blend);
    Tu = blend[BLEND.T];
    const cvu = blend[BLEND.cv];
    const dTu = (Ru * Tu) / ((cvu + Ru) * p);
    point[POINT.T] = Tb;
    point[POINT.lnP] = lnP;
    equilibriumPoint(tables, point);
    const f1 = mu * blend[BLEND.u] + mb * point[POINT.u] - U;
    const f2 = mu * Ru * Tu + mb * point[POINT.R] * Tb - p * V;
    const a11 = mu * cvu * dTu + (mb * point[POINT.uLnP]) / p;
    const a12 = mb * point[POINT.uT];
    const a21 = mu * Ru * dTu + (mb * Tb * point[POINT.RLnP]) / p - V;
    const a22 = mb * (point[POINT.R] + Tb * point[POINT.RT]);
    const determinant = a11 * a22 - a12 * a21;
    const dp = (f2 * a12 - f1 * a22) / determinant;
    let dTb = (f1 * a21 - f2 * a11) / determinant;
    if (dTb > 400) dTb = 400;
    else if (dTb < -400) dTb = -400;
    p += Math.max(-0.3 * p, Math.min(0.3 * p, dp));
    Tb += dTb;
    if (Math.abs(dp) < 1e-9 * p && Math.abs(dTb) < 1e-7 * Tb) break;
  }
  now.Tu = Tu;
  now.Tb = Tb;
  now.T = (p * V) / (mu * Ru + mb * point[POINT.R]);
  side[SIDE.p] = p;
  side[SIDE.T] = now.T;
  side[SIDE.R] = (mu * Ru + mb * point[POINT.R]) / m;
}
