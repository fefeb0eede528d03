/** A well-mixed volume of fixed size at rest: plenum or collector merge. */
import type { GasTables } from '../gas/gasTables.ts';
import { frozenCv, frozenTemperature, frozenU } from '../gas/lookup.ts';
import { SIDE, SIDE_SIZE } from './ductEnd.ts';

/** Its state: mass `y[offset]` [kg], internal energy `y[offset + 1]` [J], burned mass `y[offset + 2]` [kg]. */
export interface Volume {
  readonly name: string;
  readonly tables: GasTables;
  /** [m3] */
  readonly size: number;
  readonly offset: number;
  /** State seen by the connections, see {@link SIDE}. */
  readonly side: Float64Array;
}

/** Length of a volume's part of the state vector. */
export const VOLUME_STATE = 3;

export function createVolume(name: string, size: number, tables: GasTables, offset: number): Volume {
  return { name, tables, size, offset, side: new Float64Array(SIDE_SIZE).fill(400) };
}

/** Writes what connections see of a frozen blend of specific energy e [J/kg] at density rho [kg/m3]. */
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
  side[SIDE.T] = T;
  const R = tables.freshR + b * (tables.burnedR - tables.freshR);
  writeSide(tables, p / (R * T), frozenU(tables, T, b), b, side);
  return side;
}

export function fillVolume(volume: Volume, y: Float64Array, p: number, T: number, b: number): void {
  const { tables } = volume;
  const m = (p * volume.size) / ((tables.freshR + b * (tables.burnedR - tables.freshR)) * T);
  y[volume.offset] = m;
  y[volume.offset + 1] = m * frozenU(tables, T, b);
  y[volume.offset + 2] = m * b;
  volume.side[SIDE.T] = T;
}

export function decodeVolume(volume: Volume, y: Float64Array): void {
  const m = y[volume.offset];
  writeSide(volume.tables, m / volume.size, y[volume.offset + 1] / m, y[volume.offset + 2] / m, volume.side);
}
