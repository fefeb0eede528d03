/** What a connection sees of the gas on one of its sides. */

import { BLEND, BLEND_SIZE, blendOfEnergy, frozenR, frozenU } from '../gas/frozenBlend.ts';
import type { GasTables } from '../gas/gasTables.ts';

/**
 * State of the gas on one side of a connection, written into a Float64Array: pressure [Pa], temperature [K],
 * gas constant [J/(kg K)], ratio of specific heats, burned share, static enthalpy with formation [J/kg], density [kg/m3],
 * for a duct's face also velocity out of the duct [m/s], and for gas at rest its internal energy with formation [J/kg].
 */
export const SIDE = { p: 0, T: 1, R: 2, gamma: 3, b: 4, h: 5, rho: 6, w: 7, e: 8 } as const;
export const SIDE_SIZE = 9;

/**
 * Writes what connections see of a frozen blend, whose density, specific energy and burned share stand in `side` already; the
 * temperature there is where the search starts. In an array, since numbers handed from function to function are put on the
 * heap one by one.
 */
export function writeSide(tables: GasTables, side: Float64Array): void {
  const b = Math.min(Math.max(side[SIDE.b], 0), 1);
  blend[BLEND.T] = side[SIDE.T];
  blend[BLEND.b] = b;
  blend[BLEND.u] = side[SIDE.e];
  blendOfEnergy(tables, blend);
  const T = blend[BLEND.T];
  const R = frozenR(tables, b);
  side[SIDE.T] = T;
  side[SIDE.p] = side[SIDE.rho] * R * T;
  side[SIDE.R] = R;
  side[SIDE.gamma] = 1 + R / blend[BLEND.cv];
  side[SIDE.b] = b;
  side[SIDE.h] = side[SIDE.e] + R * T;
  side[SIDE.w] = 0;
}

/** Scratch of {@link writeSide}: written and read within one call, never kept. */
const blend = new Float64Array(BLEND_SIZE);

/** State of still gas of given pressure, temperature and burned share: a reservoir or a starting value. */
export function stillGas(tables: GasTables, p: number, T: number, b: number): Float64Array {
  const side = new Float64Array(SIDE_SIZE);
  writeStill(tables, p, T, b, side);
  return side;
}

/** The same into an array at hand. */
export function writeStill(tables: GasTables, p: number, T: number, b: number, side: Float64Array): void {
  side[SIDE.T] = T;
  const R = frozenR(tables, b);
  side[SIDE.rho] = p / (R * T);
  side[SIDE.e] = frozenU(tables, T, b);
  side[SIDE.b] = b;
  writeSide(tables, side);
}
