/** What a connection sees of the gas on one of its sides. */
import type { GasTables } from '../gas/gasTables.ts';
import { frozenCv, frozenTemperature, frozenU } from '../gas/lookup.ts';

/**
 * State of the gas on one side of a connection, written into a Float64Array: pressure [Pa], temperature [K],
 * gas constant [J/(kg K)], ratio of specific heats, burned share, static enthalpy with formation [J/kg],
 * and for a duct's face also density [kg/m3] and velocity out of the duct [m/s].
 */
export const SIDE = { p: 0, T: 1, R: 2, gamma: 3, b: 4, h: 5, rho: 6, w: 7 } as const;
export const SIDE_SIZE = 8;

/** Writes what connections see of a frozen blend of specific energy e [J/kg] at density rho [kg/m3]; T in `side` is where the search starts. */
export function writeSide(tables: GasTables, rho: number, e: number, b: number, side: Float64Array): void {
  const share = Math.min(Math.max(b, 0), 1);
  const R = tables.freshR + share * (tables.burnedR - tables.freshR);
  const T = frozenTemperature(tables, e, share, side[SIDE.T]);
  side[SIDE.T] = T;
  side[SIDE.p] = rho * R * T;
  side[SIDE.R] = R;
  side[SIDE.gamma] = 1 + R / frozenCv(tables, T, share);
  side[SIDE.b] = share;
  side[SIDE.h] = e + R * T;
  side[SIDE.rho] = rho;
  side[SIDE.w] = 0;
}

/** State of still gas of given pressure, temperature and burned share: a reservoir or a starting value. */
export function stillGas(tables: GasTables, p: number, T: number, b: number): Float64Array {
  const side = new Float64Array(SIDE_SIZE);
  writeStill(tables, p, T, b, side);
  return side;
}

/** The same into an array at hand. */
export function writeStill(tables: GasTables, p: number, T: number, b: number, side: Float64Array): void {
  side[SIDE.T] = T;
  const R = tables.freshR + b * (tables.burnedR - tables.freshR);
  writeSide(tables, p / (R * T), frozenU(tables, T, b), b, side);
}
