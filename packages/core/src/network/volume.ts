/** A well-mixed volume of fixed size at rest: plenum or collector merge. */
import type { GasTables } from '../gas/gasTables.ts';
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

/** Internal energy of a frozen blend of fresh and burned gas [J/kg]. */
export function blendEnergy(tables: GasTables, T: number, b: number): number {
  const { freshU, burnedU } = tables;
  const s = (T - tables.tMin) / tables.dT;
  const k = Math.min(Math.max(Math.floor(s), 0), tables.count - 2);
  const low = freshU[k] + b * (burnedU[k] - freshU[k]);
  const high = freshU[k + 1] + b * (burnedU[k + 1] - freshU[k + 1]);
  return low + (s - k) * (high - low);
}

/** Temperature of a frozen blend from its internal energy [K]; exact inverse of {@link blendEnergy}, `guess` starts the search. */
export function blendTemperature(tables: GasTables, e: number, b: number, guess: number): number {
  const k = blendCell(tables, e, b, guess);
  const { freshU, burnedU, tMin, dT } = tables;
  const low = freshU[k] + b * (burnedU[k] - freshU[k]);
  const high = freshU[k + 1] + b * (burnedU[k + 1] - freshU[k + 1]);
  return tMin + dT * (k + (e - low) / (high - low));
}

/** Table cell that holds the energy `e`. */
function blendCell(tables: GasTables, e: number, b: number, guess: number): number {
  const { freshU, burnedU, tMin, dT } = tables;
  const last = tables.count - 2;
  let k = Math.min(Math.max(Math.floor((guess - tMin) / dT), 0), last);
  while (k < last && e > freshU[k + 1] + b * (burnedU[k + 1] - freshU[k + 1])) k++;
  while (k > 0 && e < freshU[k] + b * (burnedU[k] - freshU[k])) k--;
  return k;
}

/** Slope of the blend's energy at T [J/(kg K)]. */
export function blendHeatCapacity(tables: GasTables, T: number, b: number): number {
  const { freshU, burnedU, tMin, dT } = tables;
  const k = Math.min(Math.max(Math.floor((T - tMin) / dT), 0), tables.count - 2);
  return (freshU[k + 1] - freshU[k] + b * (burnedU[k + 1] - burnedU[k] - freshU[k + 1] + freshU[k])) / dT;
}

/** Writes what connections see of a frozen blend of specific energy e [J/kg] at density rho [kg/m3]. */
export function writeSide(tables: GasTables, rho: number, e: number, b: number, side: Float64Array): void {
  const share = Math.min(Math.max(b, 0), 1);
  const R = tables.freshR + share * (tables.burnedR - tables.freshR);
  const T = blendTemperature(tables, e, share, side[SIDE.T]);
  side[SIDE.T] = T;
  side[SIDE.p] = rho * R * T;
  side[SIDE.R] = R;
  side[SIDE.gamma] = 1 + R / blendHeatCapacity(tables, T, share);
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
  writeSide(tables, p / (R * T), blendEnergy(tables, T, b), b, side);
  return side;
}

export function fillVolume(volume: Volume, y: Float64Array, p: number, T: number, b: number): void {
  const { tables } = volume;
  const m = (p * volume.size) / ((tables.freshR + b * (tables.burnedR - tables.freshR)) * T);
  y[volume.offset] = m;
  y[volume.offset + 1] = m * blendEnergy(tables, T, b);
  y[volume.offset + 2] = m * b;
  volume.side[SIDE.T] = T;
}

export function decodeVolume(volume: Volume, y: Float64Array): void {
  const m = y[volume.offset];
  writeSide(volume.tables, m / volume.size, y[volume.offset + 1] / m, y[volume.offset + 2] / m, volume.side);
}
