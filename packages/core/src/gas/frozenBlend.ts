/**
 * A blend of fresh and frozen burned gas by mass, `b` being the burned share (0 to 1), read from the gas tables in the hot path: plain
 * numbers in and out, nothing allocated, no guards.
 *
 * Tables are read by linear interpolation; outside them the first or last cell is continued. Each inverse is exact: it finds the cell
 * and solves its straight line.
 */
import type { GasTables } from './gasTables.ts';

/** Cell of the tables over temperature that holds `T` [K], or the nearest. */
export function cellOf(tables: GasTables, T: number): number {
  const i = Math.floor((T - tables.tMin) / tables.dT);
  // Written so that NaN becomes the first cell.
  return i > 0 ? Math.min(i, tables.count - 2) : 0;
}

function blendAt(tables: GasTables, T: number, b: number, fresh: Float64Array, burned: Float64Array): number {
  const i = cellOf(tables, T);
  const f = (T - tables.tMin) / tables.dT - i;
  return (
    (1 - b) * (fresh[i] + f * (fresh[i + 1] - fresh[i])) + b * (burned[i] + f * (burned[i + 1] - burned[i]))
  );
}

/** Gas constant of a blend [J/(kg K)]. */
export function frozenR(tables: GasTables, b: number): number {
  return tables.freshR + b * (tables.burnedR - tables.freshR);
}

/** Internal energy of a blend [J/kg]. */
export function frozenU(tables: GasTables, T: number, b: number): number {
  return blendAt(tables, T, b, tables.freshU, tables.burnedU);
}

/** Enthalpy of a blend [J/kg]. */
export function frozenH(tables: GasTables, T: number, b: number): number {
  return frozenU(tables, T, b) + frozenR(tables, b) * T;
}

/** Heat capacity at constant volume of a blend [J/(kg K)]: the slope of {@link frozenU} in its cell. */
export function frozenCv(tables: GasTables, T: number, b: number): number {
  const { freshU, burnedU } = tables;
  const i = cellOf(tables, T);
  return ((1 - b) * (freshU[i + 1] - freshU[i]) + b * (burnedU[i + 1] - burnedU[i])) / tables.dT;
}

/**
 * Entropy of a blend [J/(kg K)]: the parts' entropies by mass, without that of mixing them, which is constant where
 * `b` is.
 *
 * @param lnP - ln(p / 1 bar) [-]
 */
export function frozenS(tables: GasTables, T: number, lnP: number, b: number): number {
  return blendAt(tables, T, b, tables.freshS, tables.burnedS) - frozenR(tables, b) * lnP;
}

/**
 * A blend at one temperature, read from the tables in one go: temperature [K], burned share, internal energy [J/kg], its slope, the
 * heat capacity [J/(kg K)], and the temperature part of the entropy [J/(kg K)]. In an array, since numbers handed from function to
 * function are put on the heap one by one where the compiler doesn't join the two.
 */
export const BLEND = { T: 0, b: 1, u: 2, cv: 3, s: 4 } as const;
export const BLEND_SIZE = 5;

/** Reads u and cv of a {@link BLEND} whose T and b are given. */
export function blendOfTemperature(tables: GasTables, blend: Float64Array): void {
  const { freshU, burnedU, tMin, dT } = tables;
  const T = blend[BLEND.T];
  const b = blend[BLEND.b];
  const i = cellOf(tables, T);
  const low = freshU[i] + b * (burnedU[i] - freshU[i]);
  const rise = freshU[i + 1] + b * (burnedU[i + 1] - freshU[i + 1]) - low;
  blend[BLEND.u] = low + ((T - tMin) / dT - i) * rise;
  blend[BLEND.cv] = rise / dT;
}

/** Finds T and cv of a {@link BLEND} whose u and b are given; each cell between the T at hand and the answer costs one comparison. */
export function blendOfEnergy(tables: GasTables, blend: Float64Array): void {
  const { freshU, burnedU, tMin, dT, count } = tables;
  const u = blend[BLEND.u];
  const b = blend[BLEND.b];
  let i = cellOf(tables, blend[BLEND.T]);
  let low = freshU[i] + b * (burnedU[i] - freshU[i]);
  let high = freshU[i + 1] + b * (burnedU[i + 1] - freshU[i + 1]);
  while (u >= high && i < count - 2) {
    i++;
    low = high;
    high = freshU[i + 1] + b * (burnedU[i + 1] - freshU[i + 1]);
  }
  while (u < low && i > 0) {
    i--;
    high = low;
    low = freshU[i] + b * (burnedU[i] - freshU[i]);
  }
  blend[BLEND.T] = tMin + dT * (i + (u - low) / (high - low));
  blend[BLEND.cv] = (high - low) / dT;
}

/** Finds T, u and cv of a {@link BLEND} whose s and b are given, from the T at hand. */
export function blendOfEntropy(tables: GasTables, blend: Float64Array): void {
  const { freshS, burnedS, freshU, burnedU, tMin, dT, count } = tables;
  const s = blend[BLEND.s];
  const b = blend[BLEND.b];
  let i = cellOf(tables, blend[BLEND.T]);
  let low = freshS[i] + b * (burnedS[i] - freshS[i]);
  let high = freshS[i + 1] + b * (burnedS[i + 1] - freshS[i + 1]);
  while (s >= high && i < count - 2) {
    i++;
    low = high;
    high = freshS[i + 1] + b * (burnedS[i + 1] - freshS[i + 1]);
  }
  while (s < low && i > 0) {
    i--;
    high = low;
    low = freshS[i] + b * (burnedS[i] - freshS[i]);
  }
  const share = (s - low) / (high - low);
  const lowU = freshU[i] + b * (burnedU[i] - freshU[i]);
  const riseU = freshU[i + 1] + b * (burnedU[i + 1] - freshU[i + 1]) - lowU;
  blend[BLEND.T] = tMin + dT * (i + share);
  blend[BLEND.u] = lowU + share * riseU;
  blend[BLEND.cv] = riseU / dT;
}

/** Scratch of {@link frozenTemperature}: written and read within one call, never kept. */
const scratch = new Float64Array(BLEND_SIZE);

/**
 * Temperature of a blend of internal energy `u` [K]: the exact inverse of {@link frozenU}.
 *
 * @param guessT - where to begin [K]
 */
export function frozenTemperature(tables: GasTables, u: number, b: number, guessT: number): number {
  scratch[BLEND.T] = guessT;
  scratch[BLEND.b] = b;
  scratch[BLEND.u] = u;
  blendOfEnergy(tables, scratch);
  return scratch[BLEND.T];
}
