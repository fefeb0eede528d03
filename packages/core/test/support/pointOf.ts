import { equilibriumPoint, POINT, POINT_SIZE } from '../../src/gas/equilibriumPoint.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';

/** Burned gas at a temperature [K] and a pressure [Pa], as the tables have it, with names in place of the places of a {@link POINT}. */
export function pointOf(tables: GasTables, T: number, p: number): Record<keyof typeof POINT, number> {
  const out = new Float64Array(POINT_SIZE);
  out[POINT.T] = T;
  out[POINT.lnP] = Math.log(p);
  equilibriumPoint(tables, out);
  const { u, R, uT, uLnP, RT, RLnP, lnP } = POINT;
  return {
    T,
    lnP: out[lnP],
    u: out[u],
    R: out[R],
    uT: out[uT],
    uLnP: out[uLnP],
    RT: out[RT],
    RLnP: out[RLnP],
  };
}
