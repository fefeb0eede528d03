/** A pipe of varying area as a chain of control volumes: quasi-one-dimensional Euler equations with friction and heat. */
import { DomainError } from '../base/errors.ts';
import type { GasTables } from '../gas/gasTables.ts';

/** What a duct is made of. */
export interface DuctSpec {
  readonly name: string;
  /** Distances from the left end [m], rising from 0 to the duct's length, and the area there [m2]; linear between. */
  readonly profile: readonly { readonly x: number; readonly area: number }[];
  /** Number of control volumes; 1 is the classic filling-and-emptying model. */
  readonly cells: number;
  /** Fanning friction factor [-]. */
  readonly fanning: number;
  /** Wall temperature [K]. */
  readonly wallTemperature: number;
  /** Multiplier on the wall heat of the Reynolds analogy [-]. */
  readonly heatMultiplier: number;
}

/** Number of conserved quantities in a cell: mass, momentum, energy, burned mass. */
const FIELDS = 4;

/** Indices into the flux through a face, in the direction of rising x. */
export const FLUX = { mass: 0, momentum: 1, energy: 2, burned: 3 } as const;

/**
 * A duct ready to march. The state of cell i is mass `y[offset + i]` [kg], momentum `y[offset + n + i]` [kg m/s],
 * energy `y[offset + 2 n + i]` [J] and burned mass `y[offset + 3 n + i]` [kg]; `y[offset + 4 n]` accumulates the
 * heat taken up from the wall [J]. The other arrays are decoded from the state at each stage.
 */
export interface Duct {
  readonly name: string;
  readonly tables: GasTables;
  readonly cells: number;
  readonly offset: number;
  readonly dx: number;
  readonly faceArea: Float64Array;
  readonly volume: Float64Array;
  readonly perVolume: Float64Array;
  readonly wallArea: Float64Array;
  readonly fanning: number;
  readonly wallTemperature: number;
  readonly heatMultiplier: number;
  readonly rho: Float64Array;
  readonly u: Float64Array;
  readonly p: Float64Array;
  readonly T: Float64Array;
  readonly b: Float64Array;
  readonly R: Float64Array;
  readonly cv: Float64Array;
  readonly c: Float64Array;
  /** Specific internal energy [J/kg]. */
  readonly e: Float64Array;
  /** Energy of burned less fresh gas at the cell's temperature [J/kg]. */
  readonly eBurn: Float64Array;
  /** Limited change of density, velocity, pressure and burned share over one cell. */
  readonly slope: Float64Array;
  /** Flux through the left and the right end, set by the connections before the balance is taken. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly flux: Float64Array;
}

/** Length of the duct's part of the state vector. */
export function ductStateSize(cells: number): number {
  return FIELDS * cells + 1;
}

/** @throws {@link DomainError} where cells, lengths or areas are not positive or the profile does not rise from 0 */
export function createDuct(spec: DuctSpec, tables: GasTables, offset: number): Duct {
  const { profile, cells } = spec;
  if (!(Number.isInteger(cells) && cells > 0))
    throw new DomainError('cells', cells, 'a positive whole number');
  if (!(profile.length >= 2 && profile[0].x === 0))
    throw new DomainError('profile', profile.length, 'two points or more, from x = 0');
  for (let i = 0; i < profile.length; i++) {
    if (!(profile[i].area > 0)) throw new DomainError(`profile[${i}].area`, profile[i].area, 'positive m2');
    if (i > 0 && !(profile[i].x > profile[i - 1].x))
      throw new DomainError(`profile[${i}].x`, profile[i].x, 'rising m');
  }
  const dx = profile[profile.length - 1].x / cells;
  const faceArea = Float64Array.from({ length: cells + 1 }, (_, i) => areaAt(profile, i * dx));
  const volume = Float64Array.from({ length: cells }, (_, i) =>
    integrate(profile, i * dx, (i + 1) * dx, (a) => a),
  );
  const wallArea = Float64Array.from({ length: cells }, (_, i) =>
    integrate(profile, i * dx, (i + 1) * dx, (a) => 2 * Math.sqrt(Math.PI * a)),
  );
  const column = () => new Float64Array(cells);
  return {
    name: spec.name,
    tables,
    cells,
    offset,
    dx,
    faceArea,
    volume,
    perVolume: volume.map((v) => 1 / v),
    wallArea,
    fanning: spec.fanning,
    wallTemperature: spec.wallTemperature,
    heatMultiplier: spec.heatMultiplier,
    rho: column(),
    u: column(),
    p: column(),
    T: column().fill(400),
    b: column(),
    R: column(),
    cv: column(),
    c: column(),
    e: column(),
    eBurn: column(),
    slope: new Float64Array(FIELDS * cells),
    left: new Float64Array(FIELDS),
    right: new Float64Array(FIELDS),
    flux: new Float64Array(FIELDS * (cells + 1)),
  };
}

/** Area at x on a piecewise linear profile [m2]. */
function areaAt(profile: DuctSpec['profile'], x: number): number {
  for (let i = 1; i < profile.length; i++) {
    const a = profile[i - 1];
    const b = profile[i];
    if (x <= b.x || i === profile.length - 1) return a.area + ((b.area - a.area) * (x - a.x)) / (b.x - a.x);
  }
  return profile[0].area;
}

/** Integral of f(area) between two x, split at the profile's corners (Simpson's rule between them). */
function integrate(
  profile: DuctSpec['profile'],
  from: number,
  to: number,
  f: (area: number) => number,
): number {
  const corners = [from, ...profile.map((q) => q.x).filter((x) => x > from && x < to), to];
  let sum = 0;
  for (let i = 1; i < corners.length; i++) {
    const [a, b] = [corners[i - 1], corners[i]];
    sum +=
      ((b - a) / 6) * (f(areaAt(profile, a)) + 4 * f(areaAt(profile, (a + b) / 2)) + f(areaAt(profile, b)));
  }
  return sum;
}

/** Writes gas of one state at rest into the duct's part of `y`: p [Pa], T [K], burned share b [-]. */
export function fillDuct(duct: Duct, y: Float64Array, p: number, T: number, b: number): void {
  const { tables } = duct;
  const R = (1 - b) * tables.freshR + b * tables.burnedR;
  const s = (T - tables.tMin) / tables.dT;
  const k = Math.min(Math.max(Math.floor(s), 0), tables.count - 2);
  const f = s - k;
  const { freshU, burnedU } = tables;
  const e =
    (1 - b) * (freshU[k] + f * (freshU[k + 1] - freshU[k])) +
    b * (burnedU[k] + f * (burnedU[k + 1] - burnedU[k]));
  const n = duct.cells;
  for (let i = 0; i < n; i++) {
    const m = (p * duct.volume[i]) / (R * T);
    y[duct.offset + i] = m;
    y[duct.offset + n + i] = 0;
    y[duct.offset + 2 * n + i] = m * e;
    y[duct.offset + 3 * n + i] = m * b;
    duct.T[i] = T;
  }
  y[duct.offset + FIELDS * n] = 0;
}

/** Primitive variables and limited slopes of every cell from the state vector. */
export function decodeDuct(duct: Duct, y: Float64Array): void {
  const { tables, cells: n, offset: o, perVolume, rho, u, p, T, b, R, cv, c, e, eBurn } = duct;
  const { freshU, burnedU, tMin, dT, freshR, burnedR } = tables;
  const perKelvin = 1 / dT;
  const dR = burnedR - freshR;
  const last = tables.count - 2;
  for (let i = 0; i < n; i++) {
    const m = y[o + i];
    const im = 1 / m;
    const ui = y[o + n + i] * im;
    const ei = y[o + 2 * n + i] * im - 0.5 * ui * ui;
    let bi = y[o + 3 * n + i] * im;
    if (bi < 0) bi = 0;
    else if (bi > 1) bi = 1;
    let k = ((T[i] - tMin) * perKelvin) | 0;
    if (k < 0) k = 0;
    else if (k > last) k = last;
    // The blend of two piecewise linear tables is inverted exactly; the guess only says where to start looking.
    let deltaLo = burnedU[k] - freshU[k];
    let deltaHi = burnedU[k + 1] - freshU[k + 1];
    let lo = freshU[k] + bi * deltaLo;
    let hi = freshU[k + 1] + bi * deltaHi;
    while (ei > hi && k < last) {
      k++;
      deltaLo = deltaHi;
      deltaHi = burnedU[k + 1] - freshU[k + 1];
      lo = hi;
      hi = freshU[k + 1] + bi * deltaHi;
    }
    while (ei < lo && k > 0) {
      k--;
      deltaHi = deltaLo;
      deltaLo = burnedU[k] - freshU[k];
      hi = lo;
      lo = freshU[k] + bi * deltaLo;
    }
    const cvi = (hi - lo) * perKelvin;
    const f = (ei - lo) / (hi - lo);
    const Ti = tMin + dT * (k + f);
    const Ri = freshR + bi * dR;
    const ri = m * perVolume[i];
    rho[i] = ri;
    u[i] = ui;
    T[i] = Ti;
    b[i] = bi;
    R[i] = Ri;
    cv[i] = cvi;
    e[i] = ei;
    eBurn[i] = deltaLo + f * (deltaHi - deltaLo);
    const RT = Ri * Ti;
    p[i] = ri * RT;
    c[i] = Math.sqrt((1 + Ri / cvi) * RT);
  }
  limitSlopes(duct);
}

/** Monotonised central slopes (van Leer, J. Comput. Phys. 23 (1977) 276, eq. 66); one-sided at the ends. */
function limitSlopes(duct: Duct): void {
  const { cells: n, slope } = duct;
  limitField(duct.rho, slope, 0, n);
  limitField(duct.u, slope, n, n);
  limitField(duct.p, slope, 2 * n, n);
  limitField(duct.b, slope, 3 * n, n);
  flattenJump(duct, 0);
  flattenJump(duct, n - 1);
}

/** Largest one-sided change of density or pressure over an end cell, as a share of it [-]; steeper slopes are flattened to it. */
const JUMP = 0.4;

/** An end cell's slope has one side only, and nothing limits it: a jump (a shock passing, a jet coming in) is none. */
function flattenJump(duct: Duct, i: number): void {
  const { cells: n, slope, rho, p } = duct;
  const most = Math.max(Math.abs(slope[i]) / rho[i], Math.abs(slope[2 * n + i]) / p[i]);
  if (!(most > JUMP)) return;
  for (let q = 0; q < FIELDS; q++) slope[q * n + i] *= JUMP / most;
}

function limitField(q: Float64Array, slope: Float64Array, at: number, n: number): void {
  if (n === 1) {
    slope[at] = 0;
    return;
  }
  let back = q[1] - q[0];
  slope[at] = back;
  for (let i = 1; i < n - 1; i++) {
    const fore = q[i + 1] - q[i];
    let s = 0;
    if (back > 0 && fore > 0) s = Math.min(2 * Math.min(back, fore), 0.5 * (back + fore));
    else if (back < 0 && fore < 0) s = Math.max(2 * Math.max(back, fore), 0.5 * (back + fore));
    slope[at + i] = s;
    back = fore;
  }
  slope[at + n - 1] = back;
}

/**
 * Balance of every cell from the fluxes at the ends (already set), the HLLC fluxes between the cells, wall
 * friction and wall heat, added into `d`.
 */
export function balanceDuct(duct: Duct, d: Float64Array): void {
  const { cells: n, offset: o, faceArea, flux, left, right, wallArea, rho, u, p, T, R, cv, fanning } = duct;
  for (let q = 0; q < FIELDS; q++) {
    flux[q] = left[q];
    flux[FIELDS * n + q] = right[q];
  }
  const dR = duct.tables.burnedR - duct.tables.freshR;
  for (let i = 1; i < n; i++) interiorFlux(duct, i, dR);
  let heat = 0;
  const { wallTemperature, heatMultiplier } = duct;
  for (let i = 0; i < n; i++) {
    const a = FIELDS * i;
    const z = a + FIELDS;
    // Shear stress f rho u |u| / 2; heat by Reynolds analogy, h = (f / 2) rho |u| cp.
    const shear = 0.5 * fanning * rho[i] * Math.abs(u[i]) * wallArea[i];
    const q = heatMultiplier * shear * (cv[i] + R[i]) * (wallTemperature - T[i]);
    heat += q;
    d[o + i] += flux[a] - flux[z];
    d[o + n + i] += flux[a + 1] - flux[z + 1] + p[i] * (faceArea[i + 1] - faceArea[i]) - shear * u[i];
    d[o + 2 * n + i] += flux[a + 2] - flux[z + 2] + q;
    d[o + 3 * n + i] += flux[a + 3] - flux[z + 3];
  }
  d[o + FIELDS * n] += heat;
}

/**
 * HLLC flux through interior face i, between cells i - 1 and i, written to the duct's flux array.
 * @see Toro, Spruce and Speares, Shock Waves 4 (1994) 25; wave speeds by Davis, SIAM J. Sci. Stat. Comput. 9 (1988) 445
 */
function interiorFlux(duct: Duct, i: number, dR: number): void {
  const { cells: n, slope, rho, u, p, b, R, cv, c, e, eBurn, T, flux, faceArea } = duct;
  const l = i - 1;
  const r = i;
  const rhoL = rho[l] + 0.5 * slope[l];
  const uL = u[l] + 0.5 * slope[n + l];
  const pL = p[l] + 0.5 * slope[2 * n + l];
  const dbL = 0.5 * slope[3 * n + l];
  const rhoR = rho[r] - 0.5 * slope[r];
  const uR = u[r] - 0.5 * slope[n + r];
  const pR = p[r] - 0.5 * slope[2 * n + r];
  const dbR = -0.5 * slope[3 * n + r];
  const cL = c[l];
  const cR = c[r];
  const sL = Math.min(uL - cL, uR - cR);
  const sR = Math.max(uL + cL, uR + cR);
  const kL = rhoL * (sL - uL);
  const kR = rhoR * (sR - uR);
  const sM = (pR - pL + kL * uL - kR * uR) / (kL - kR);
  const A = faceArea[i];
  const at = FIELDS * i;
  if (sM >= 0) {
    const bL = b[l] + dbL;
    const RL = R[l] + dR * dbL;
    const eL = e[l] + cv[l] * (pL / (rhoL * RL) - T[l]) + eBurn[l] * dbL;
    const EL = eL + 0.5 * uL * uL;
    let m = rhoL * uL;
    let mom = m * uL + pL;
    let en = m * EL + pL * uL;
    if (sL < 0) {
      const rhoS = kL / (sL - sM);
      const ES = EL + (sM - uL) * (sM + pL / kL);
      m += sL * (rhoS - rhoL);
      mom += sL * (rhoS * sM - rhoL * uL);
      en += sL * (rhoS * ES - rhoL * EL);
    }
    flux[at] = m * A;
    flux[at + 1] = mom * A;
    flux[at + 2] = en * A;
    flux[at + 3] = m * A * bL;
  } else {
    const bR = b[r] + dbR;
    const RR = R[r] + dR * dbR;
    const eR = e[r] + cv[r] * (pR / (rhoR * RR) - T[r]) + eBurn[r] * dbR;
    const ER = eR + 0.5 * uR * uR;
    let m = rhoR * uR;
    let mom = m * uR + pR;
    let en = m * ER + pR * uR;
    if (sR > 0) {
      const rhoS = kR / (sR - sM);
      const ES = ER + (sM - uR) * (sM + pR / kR);
      m += sR * (rhoS - rhoR);
      mom += sR * (rhoS * sM - rhoR * uR);
      en += sR * (rhoS * ES - rhoR * ER);
    }
    flux[at] = m * A;
    flux[at + 1] = mom * A;
    flux[at + 2] = en * A;
    flux[at + 3] = m * A * bR;
  }
}

/** Largest signal speed over cell length in the duct [1/s], from the last decoded state. */
export function signalRate(duct: Duct): number {
  let most = 0;
  for (let i = 0; i < duct.cells; i++) {
    const s = Math.abs(duct.u[i]) + duct.c[i];
    if (s > most) most = s;
  }
  return most / duct.dx;
}
