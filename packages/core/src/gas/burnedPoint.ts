/** Burned gas at one temperature and pressure with its derivatives, for Newton iterations in the hot path. */
import type { GasTables } from './gasTables.ts';

/** Indices into the result of {@link burnedPoint}. */
export const POINT = { u: 0, uT: 1, uLnP: 2, R: 3, RT: 4, RLnP: 5 } as const;
export const POINT_SIZE = 6;

/**
 * Internal energy u [J/kg] and gas constant R [J/(kg K)] of burned gas and their derivatives by T [1/K] and by
 * ln(p), from the tables: frozen below the freeze temperature, equilibrium above it (bilinear). Beyond the grid in
 * temperature it extrapolates the last cell; beyond it in pressure it holds the edge.
 */
export function burnedPoint(tables: GasTables, T: number, p: number, out: Float64Array): void {
  if (T <= tables.freezeTemperature) {
    const k = Math.min(Math.max(Math.floor((T - tables.tMin) / tables.dT), 0), tables.count - 2);
    const slope = (tables.burnedU[k + 1] - tables.burnedU[k]) / tables.dT;
    out[POINT.u] = tables.burnedU[k] + slope * (T - tables.tMin - k * tables.dT);
    out[POINT.uT] = slope;
    out[POINT.uLnP] = 0;
    out[POINT.R] = tables.burnedR;
    out[POINT.RT] = 0;
    out[POINT.RLnP] = 0;
    return;
  }
  const grid = tables.equilibrium;
  const n = grid.pressureCount;
  const it = Math.min(Math.floor((T - grid.tMin) / grid.dT), grid.temperatureCount - 2);
  const ft = (T - grid.tMin) / grid.dT - it;
  let s = (Math.log(p) - grid.lnPMin) / grid.dLnP;
  if (s < 0) s = 0;
  else if (s > n - 1) s = n - 1;
  const ip = Math.min(Math.floor(s), n - 2);
  const fp = s - ip;
  const at = it * n + ip;
  const { u, R } = grid;
  const uLow = u[at] + fp * (u[at + 1] - u[at]);
  const uHigh = u[at + n] + fp * (u[at + n + 1] - u[at + n]);
  const RLow = R[at] + fp * (R[at + 1] - R[at]);
  const RHigh = R[at + n] + fp * (R[at + n + 1] - R[at + n]);
  out[POINT.u] = uLow + ft * (uHigh - uLow);
  out[POINT.uT] = (uHigh - uLow) / grid.dT;
  out[POINT.uLnP] = ((1 - ft) * (u[at + 1] - u[at]) + ft * (u[at + n + 1] - u[at + n])) / grid.dLnP;
  out[POINT.R] = RLow + ft * (RHigh - RLow);
  out[POINT.RT] = (RHigh - RLow) / grid.dT;
  out[POINT.RLnP] = ((1 - ft) * (R[at + 1] - R[at]) + ft * (R[at + n + 1] - R[at + n])) / grid.dLnP;
}
