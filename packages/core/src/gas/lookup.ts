/**
 * Reading the gas tables in the hot path: plain numbers in and out, nothing allocated, no guards.
 *
 * A blend is fresh and frozen burned gas by mass, `b` being the burned share (0 to 1). Tables are read by linear
 * interpolation; outside them the first or last cell is continued in temperature, and the first or last
 * pressure is held. Each inverse is exact: it finds the cell and solves its straight line.
 */
import type { EquilibriumTable, GasTables } from './gasTables.ts';

/** Cell of the one-dimensional tables that holds `T`, or the nearest. */
function cellOf(tables: GasTables, T: number): number {
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

/** Column of the equilibrium table that holds `p` [Pa], as cell + share in the cell; held within the table. */
function columnOf(table: EquilibriumTable, p: number): number {
  const x = (Math.log(p) - table.lnPMin) / table.dLnP;
  return x > 0 ? Math.min(x, table.pressureCount - 1) : 0;
}

function gridAt(table: EquilibriumTable, values: Float64Array, T: number, p: number): number {
  const column = columnOf(table, p);
  const ip = Math.min(Math.floor(column), table.pressureCount - 2);
  const fp = column - ip;
  const row = (T - table.tMin) / table.dT;
  const it = Math.min(Math.floor(row), table.temperatureCount - 2);
  const ft = row - it;
  const k = it * table.pressureCount + ip;
  const next = k + table.pressureCount;
  const low = values[k] + fp * (values[k + 1] - values[k]);
  const high = values[next] + fp * (values[next + 1] - values[next]);
  return low + ft * (high - low);
}

/** Internal energy of burned gas [J/kg]: at equilibrium above the freezing temperature, frozen below. */
export function equilibriumU(tables: GasTables, T: number, p: number): number {
  if (!(T > tables.freezeTemperature)) return frozenU(tables, T, 1);
  return gridAt(tables.equilibrium, tables.equilibrium.u, T, p);
}

/** Gas constant of burned gas [J/(kg K)]: at equilibrium above the freezing temperature, frozen below. */
export function equilibriumR(tables: GasTables, T: number, p: number): number {
  if (!(T > tables.freezeTemperature)) return tables.burnedR;
  return gridAt(tables.equilibrium, tables.equilibrium.R, T, p);
}

/**
 * Temperature of burned gas of internal energy `u` at pressure `p` [K]: the exact inverse of {@link equilibriumU} in T.
 *
 * @param guessT - where to begin [K]
 */
export function equilibriumTemperature(tables: GasTables, u: number, p: number, guessT: number): number {
  const table = tables.equilibrium;
  const { u: values, pressureCount, temperatureCount } = table;
  // The first row is the frozen gas at every pressure.
  if (!(u > values[0])) return frozenTemperature(tables, u, 1, guessT);
  const column = columnOf(table, p);
  const ip = Math.min(Math.floor(column), pressureCount - 2);
  const fp = column - ip;
  const row = Math.floor((guessT - table.tMin) / table.dT);
  let it = row > 0 ? Math.min(row, temperatureCount - 2) : 0;
  let k = it * pressureCount + ip;
  let low = values[k] + fp * (values[k + 1] - values[k]);
  k += pressureCount;
  let high = values[k] + fp * (values[k + 1] - values[k]);
  while (u > high && it < temperatureCount - 2) {
    it++;
    k += pressureCount;
    low = high;
    high = values[k] + fp * (values[k + 1] - values[k]);
  }
  k -= pressureCount;
  while (u < low && it > 0) {
    it--;
    k -= pressureCount;
    high = low;
    low = values[k] + fp * (values[k + 1] - values[k]);
  }
  return table.tMin + table.dT * (it + (u - low) / (high - low));
}

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

/** Most iterations of {@link equilibriumState}; it needs three or four from a near guess. */
const MAX_ITERATIONS = 40;

/**
 * Temperature and pressure of burned gas of internal energy `u` and specific volume `v`.
 *
 * Repeats T = T(u, p), p = R T / v; each pass takes the error down by an order or more, since dissociation
 * follows pressure weakly.
 *
 * @param u - [J/kg]
 * @param v - [m3/kg], positive
 * @param guessT - [K]
 * @param guessP - [Pa], positive
 * @param out - out[0]: T [K], out[1]: p [Pa], out[2]: R [J/(kg K)]
 * @returns passes used; negative where the pressure still moved by more than 1e-10 of itself
 */
export function equilibriumState(
  tables: GasTables,
  u: number,
  v: number,
  guessT: number,
  guessP: number,
  out: Float64Array,
): number {
  let T = guessT;
  let p = guessP;
  for (let pass = 1; pass <= MAX_ITERATIONS; pass++) {
    T = equilibriumTemperature(tables, u, p, T);
    const R = equilibriumR(tables, T, p);
    const next = (R * T) / v;
    const moved = Math.abs(next - p);
    p = next;
    if (moved <= 1e-10 * p) {
      out[0] = T;
      out[1] = p;
      out[2] = R;
      return pass;
    }
  }
  out[0] = T;
  out[1] = p;
  out[2] = equilibriumR(tables, T, p);
  return -MAX_ITERATIONS;
}
