/** Pressure and temperatures of a cylinder's gas from its mass and energy: one zone, or two while it burns. */
import type { GasTables } from '../gas/gasTables.ts';
import { equilibriumPoint, frozenCv, frozenU } from '../gas/lookup.ts';
import { SIDE, writeSide } from './side.ts';

/** What the zones are worked out for, and into. */
export interface ZonedGas {
  readonly tables: GasTables;
  readonly side: Float64Array;
  /** Burned share of the unburned zone. */
  residual: number;
  /** Where the search of two zones starts: pressure [Pa] and burned temperature [K]. */
  readonly start: { p: number; Tb: number };
  /** Volume [m3] and burned share of mass, given; temperatures of the unburned and burned zone and their mass mean [K], found. */
  readonly now: { V: number; x: number; Tu: number; Tb: number; T: number };
}

/** One zone: a frozen blend, or above the freeze temperature fresh gas with burned gas at equilibrium. */
export function decodeOneZone(gas: ZonedGas, m: number, e: number, b: number): void {
  const { tables, side, now } = gas;
  writeSide(tables, m / now.V, e, b, side);
  if (side[SIDE.T] <= tables.freezeTemperature) return;
  const point = scratch;
  let T = side[SIDE.T];
  let p = side[SIDE.p];
  let R = side[SIDE.R];
  const share = side[SIDE.b];
  for (let i = 0; i < 8; i++) {
    equilibriumPoint(tables, T, p, point);
    const u = (1 - share) * frozenU(tables, T, 0) + share * point[POINT.u];
    const cv = (1 - share) * frozenCv(tables, T, 0) + share * point[POINT.uT];
    const dT = (e - u) / cv;
    T += dT;
    R = (1 - share) * tables.freshR + share * (point[POINT.R] + point[POINT.RT] * dT);
    p = (m * R * T) / now.V;
    if (Math.abs(dT) < 1e-7 * T) break;
  }
  side[SIDE.T] = T;
  side[SIDE.p] = p;
  side[SIDE.R] = R;
  side[SIDE.gamma] = 1 + R / frozenCv(tables, T, share);
  side[SIDE.h] = e + R * T;
}

/** Indices into the result of `equilibriumPoint`. */
const POINT = { u: 0, R: 1, uT: 2, uLnP: 3, RT: 4, RLnP: 5 } as const;

/** Scratch of the decoders: written and read within one call, never kept. */
const scratch = new Float64Array(6);

/**
 * Two zones at one pressure, from total energy and the unburned zone's entropy: Newton's method on pressure and
 * burned temperature. The unburned temperature follows from entropy and pressure.
 *
 * 0 = mu uu(Tu(p)) + mb ub(Tb, p) - U
 * 0 = mu Ru Tu(p) + mb Rb(Tb, p) Tb - p V
 */
export function decodeTwoZones(gas: ZonedGas, m: number, U: number, s: number): void {
  const { tables, side, now, residual, start } = gas;
  const point = scratch;
  const mb = m * now.x;
  const mu = m - mb;
  const Ru = tables.freshR + residual * (tables.burnedR - tables.freshR);
  let p = start.p;
  let Tb = Math.max(start.Tb, 1200);
  let Tu = now.Tu;
  for (let i = 0; i < 20; i++) {
    Tu = entropyTemperature(tables, s + Ru * Math.log(p * 1e-5), residual, Tu);
    const cvu = frozenCv(tables, Tu, residual);
    const dTu = (Ru * Tu) / ((cvu + Ru) * p);
    const uu = frozenU(tables, Tu, residual);
    equilibriumPoint(tables, Tb, p, point);
    const f1 = mu * uu + mb * point[POINT.u] - U;
    const f2 = mu * Ru * Tu + mb * point[POINT.R] * Tb - p * now.V;
    const a11 = mu * cvu * dTu + (mb * point[POINT.uLnP]) / p;
    const a12 = mb * point[POINT.uT];
    const a21 = mu * Ru * dTu + (mb * Tb * point[POINT.RLnP]) / p - now.V;
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
  now.T = (p * now.V) / (mu * Ru + mb * point[POINT.R]);
  side[SIDE.p] = p;
  side[SIDE.T] = now.T;
  side[SIDE.R] = (mu * Ru + mb * point[POINT.R]) / m;
}

/** Temperature at which the blend's entropy function s(T) has the given value [K]; tables are piecewise linear. */
function entropyTemperature(tables: GasTables, s: number, b: number, guess: number): number {
  const { freshS, burnedS, tMin, dT } = tables;
  const last = tables.count - 2;
  let k = Math.min(Math.max(Math.floor((guess - tMin) / dT), 0), last);
  while (k < last && s >= freshS[k + 1] + b * (burnedS[k + 1] - freshS[k + 1])) k++;
  while (k > 0 && s < freshS[k] + b * (burnedS[k] - freshS[k])) k--;
  const low = freshS[k] + b * (burnedS[k] - freshS[k]);
  const high = freshS[k + 1] + b * (burnedS[k + 1] - freshS[k + 1]);
  return tMin + dT * (k + (s - low) / (high - low));
}
