/**
 * Burned gas at equilibrium, read from its table in the hot path with all that Newton's method asks of it: nothing allocated, no guards.
 *
 * Linear in temperature and in ln p between the points of the table; outside it the last cell is continued in temperature, and the first
 * or last pressure is held. Below the freezing temperature it is the frozen gas of the blends.
 */
import { cellOf } from './frozenBlend.ts';
import type { GasTables } from './gasTables.ts';

/**
 * A point of the table of burned gas: internal energy u [J/kg] and gas constant R [J/(kg K)] with their slopes, du/dT, du/dln p,
 * dR/dT and dR/dln p, at a temperature T [K] and the logarithm of a pressure, ln(p / 1 Pa).
 */
export const POINT = { u: 0, R: 1, uT: 2, uLnP: 3, RT: 4, RLnP: 5, T: 6, lnP: 7 } as const;
export const POINT_SIZE = 8;

/** Reads u and R of burned gas with their slopes into a {@link POINT} whose T and lnP are given. */
export function equilibriumPoint(tables: GasTables, out: Float64Array): void {
  const T = out[POINT.T];
  if (!(T > tables.freezeTemperature)) {
    frozenPoint(tables, out);
    return;
  }
  const table = tables.equilibrium;
  const x = (out[POINT.lnP] - table.lnPMin) / table.dLnP;
  const column = x > 0 ? Math.min(x, table.pressureCount - 1) : 0;
  const slopeP = x === column ? 1 / table.dLnP : 0;
  const ip = Math.min(Math.floor(column), table.pressureCount - 2);
  const fp = column - ip;
  const row = (T - table.tMin) / table.dT;
  const it = Math.min(Math.floor(row), table.temperatureCount - 2);
  const ft = row - it;
  const k = it * table.pressureCount + ip;
  const next = k + table.pressureCount;
  for (let i = 0; i < 2; i++) {
    const values = i === 0 ? table.u : table.R;
    const lowRise = values[k + 1] - values[k];
    const highRise = values[next + 1] - values[next];
    const low = values[k] + fp * lowRise;
    const high = values[next] + fp * highRise;
    out[POINT.u + i] = low + ft * (high - low);
    out[POINT.uT + 2 * i] = (high - low) / table.dT;
    out[POINT.uLnP + 2 * i] = (lowRise + ft * (highRise - lowRise)) * slopeP;
  }
}

/** A {@link POINT} of gas that keeps its composition; seldom asked for, and by itself so that the compiler joins {@link cellOf} into it. */
function frozenPoint(tables: GasTables, out: Float64Array): void {
  const { burnedU, burnedR, tMin, dT } = tables;
  const T = out[POINT.T];
  const i = cellOf(tables, T);
  const rise = burnedU[i + 1] - burnedU[i];
  out[POINT.u] = burnedU[i] + ((T - tMin) / dT - i) * rise;
  out[POINT.R] = burnedR;
  out[POINT.uT] = rise / dT;
  out[POINT.uLnP] = 0;
  out[POINT.RT] = 0;
  out[POINT.RLnP] = 0;
}
