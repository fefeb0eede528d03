/** A pipe of varying area as a chain of control volumes: quasi-one-dimensional Euler equations with friction and heat. */

import { frozenR, frozenU } from '../gas/frozenBlend.ts';
import type { GasTables } from '../gas/gasTables.ts';
import type { DuctCells, DuctProfile } from './ductProfile.ts';
import { cutProfile } from './ductProfile.ts';
import { BLOCK, BLOCK_HEAD, type NetworkMemory } from './networkMemory.ts';
import { FASTEST, type PartGroup, type Site, type Weighted } from './part.ts';

/** What a duct is made of. */
export interface DuctSpec extends Weighted {
  readonly name: string;
  readonly profile: DuctProfile;
  /** Number of control volumes; 1 is the classic filling-and-emptying model. */
  readonly cells: number;
  /** Fanning friction factor [-]. */
  readonly fanning: number;
  /** Wall temperature [K]. */
  readonly wallTemperature: number;
  /** Multiplier on the wall heat of the Reynolds analogy [-]. */
  readonly heatMultiplier: number;
  /** Its own gas, where it isn't the network's. */
  readonly tables?: GasTables | undefined;
}

/** One of the two ends of a duct: left is x = 0. */
export type DuctEnd = 'left' | 'right';

/** Number of conserved quantities in a cell: mass, momentum, energy, burned mass. */
export const DUCT_FIELDS = 4;

/** Indices into the flux through a face, in the direction of rising x. */
export const FLUX = { mass: 0, momentum: 1, energy: 2, burned: 3 } as const;

/**
 * A duct ready to march. The state of cell i is mass `y[offset + i]` [kg], momentum `y[offset + n + i]` [kg m/s],
 * energy `y[offset + 2 n + i]` [J] and burned mass `y[offset + 3 n + i]` [kg]; `y[offset + 4 n]` accumulates the
 * heat taken up from the wall [J]. The other arrays are decoded from the state at each stage.
 */
export interface Duct extends DuctCells {
  /** All columns in one piece, as the kernel meets them: `networkMemory.ts`. */
  readonly block: Float64Array;
  readonly name: string;
  readonly weight: number;
  readonly tables: GasTables;
  readonly cells: number;
  readonly offset: number;
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
  /** Limited change of density, velocity times area, pressure and burned share over one cell. */
  readonly slope: Float64Array;
  /** Flux through the left and the right end, set by the connections before the balance is taken. */
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/** @throws {@link DomainError} where cells, lengths or areas are not positive or the profile does not rise from 0 */
export function createDuct(
  spec: DuctSpec,
  { tables: shared, take, memory }: Pick<Site, 'tables' | 'take'> & { readonly memory?: NetworkMemory },
): Duct {
  const { name, weight = 1, tables = shared, cells, fanning, wallTemperature, heatMultiplier } = spec;
  const cut = cutProfile(spec.profile, cells);
  const size = blockSize(cells);
  const block = memory === undefined ? new Float64Array(size) : memory.take(size);
  let next = BLOCK_HEAD;
  const column = (count = cells): Float64Array => {
    next += count;
    return block.subarray(next - count, next);
  };
  // Behind a column of the kernel's own, velocity times area.
  const behind = (): Float64Array => {
    column();
    return column(DUCT_FIELDS * cells);
  };
  block[BLOCK.fanning] = fanning;
  block[BLOCK.wallTemperature] = wallTemperature;
  block[BLOCK.heatMultiplier] = heatMultiplier;
  block[BLOCK.cells] = cells;
  block[BLOCK.dx] = cut.dx;
  const duct = {
    block,
    name,
    weight,
    tables,
    cells,
    offset: take(DUCT_FIELDS * cells + 1),
    ...cut,
    fanning,
    wallTemperature,
    heatMultiplier,
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
    slope: behind(),
    left: block.subarray(BLOCK.left, BLOCK.left + DUCT_FIELDS),
    right: block.subarray(BLOCK.right, BLOCK.right + DUCT_FIELDS),
  };
  // What the kernel reads beside: measures of the cells. Its fluxes come last.
  column().set(cut.perVolume);
  column().set(cut.cellArea);
  column().set(cut.wallArea);
  column(cells + 1).set(cut.faceArea);
  column(cells + 1).set(cut.faceArea.map((area) => 1 / area));
  return duct;
}

/** Numbers in the block of a duct: head, columns, faces, fluxes through them two by two, and a pair to spare. */
export function blockSize(cells: number): number {
  return BLOCK_HEAD + 18 * cells + 2 * (cells + 1) + DUCT_FIELDS * (cells + 2) + 2;
}

/** Writes gas of one state at rest into the duct's part of `y`: p [Pa], T [K], burned share b [-]. */
export function fillDuct(duct: Duct, y: Float64Array, p: number, T: number, b: number): void {
  const { tables, cells: n } = duct;
  const R = frozenR(tables, b);
  const e = frozenU(tables, T, b);
  for (let i = 0; i < n; i++) {
    const m = (p * duct.volume[i]) / (R * T);
    y[duct.offset + i] = m;
    y[duct.offset + n + i] = 0;
    y[duct.offset + 2 * n + i] = m * e;
    y[duct.offset + 3 * n + i] = m * b;
  }
  y[duct.offset + DUCT_FIELDS * n] = 0;
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
    while (ei >= hi && k < last) {
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
    const perRise = 1 / (hi - lo);
    const f = (ei - lo) * perRise;
    const Ti = tMin + dT * (k + f);
    const Ri = freshR + bi * dR;
    const ri = m * perVolume[i];
    rho[i] = ri;
    u[i] = ui;
    T[i] = Ti;
    b[i] = bi;
    R[i] = Ri;
    cv[i] = (hi - lo) * perKelvin;
    e[i] = ei;
    eBurn[i] = deltaLo + f * (deltaHi - deltaLo);
    const RT = Ri * Ti;
    p[i] = ri * RT;
    c[i] = Math.sqrt((1 + Ri * dT * perRise) * RT);
  }
  limitSlopes(duct);
}

/** Monotonised central slopes (van Leer, J. Comput. Phys. 23 (1977) 276, eq. 66); one-sided at the ends. */
function limitSlopes(duct: Duct): void {
  const { cells: n, slope, rho, u, p, b, cellArea } = duct;
  if (n === 1) {
    slope.fill(0);
    return;
  }
  let backRho = rho[1] - rho[0];
  let here = u[1] * cellArea[1];
  let backU = here - u[0] * cellArea[0];
  let backP = p[1] - p[0];
  let backB = b[1] - b[0];
  slope[0] = backRho;
  slope[n] = backU;
  slope[2 * n] = backP;
  slope[3 * n] = backB;
  for (let i = 1; i < n - 1; i++) {
    const foreRho = rho[i + 1] - rho[i];
    const next = u[i + 1] * cellArea[i + 1];
    const foreU = next - here;
    here = next;
    const foreP = p[i + 1] - p[i];
    const foreB = b[i + 1] - b[i];
    slope[i] = limited(backRho, foreRho);
    slope[n + i] = limited(backU, foreU);
    slope[2 * n + i] = limited(backP, foreP);
    slope[3 * n + i] = limited(backB, foreB);
    backRho = foreRho;
    backU = foreU;
    backP = foreP;
    backB = foreB;
  }
  slope[n - 1] = backRho;
  slope[2 * n - 1] = backU;
  slope[3 * n - 1] = backP;
  slope[4 * n - 1] = backB;
  flattenJump(duct, 0);
  flattenJump(duct, n - 1);
}

/**
 * The mean of two slopes, held to twice the lesser of them; 0 where their signs differ. Without a branch, since no processor can guess
 * which way it goes: twice the lesser is |a + b| - ||a| - |b||, exactly 0 for two signs, and 0.5 (|x + l| - |x - l|) holds x to l.
 */
function limited(back: number, fore: number): number {
  const sum = back + fore;
  const most = Math.abs(sum) - Math.abs(Math.abs(back) - Math.abs(fore));
  const mean = 0.5 * sum;
  return 0.5 * (Math.abs(mean + most) - Math.abs(mean - most));
}

/** Largest one-sided change of density or pressure over an end cell, as a share of it [-]; steeper slopes are flattened to it. */
const JUMP = 0.4;

/** An end cell's slope has one side only, and nothing limits it: a jump (a shock passing, a jet coming in) is none. */
function flattenJump(duct: Duct, i: number): void {
  const { cells: n, slope, rho, p } = duct;
  const most = Math.max(Math.abs(slope[i]) / rho[i], Math.abs(slope[2 * n + i]) / p[i]);
  if (!(most > JUMP)) return;
  for (let q = 0; q < DUCT_FIELDS; q++) slope[q * n + i] *= JUMP / most;
}

/**
 * Balance of every cell from the fluxes at the ends (already set), the HLLC fluxes between the cells, wall
 * friction and wall heat, added into `d`. One pass: the flux through a face leaves one cell and enters the next.
 *
 * @see Toro, Spruce and Speares, Shock Waves 4 (1994) 25; wave speeds by Davis, SIAM J. Sci. Stat. Comput. 9 (1988) 445
 */
export function balanceDuct(duct: Duct, d: Float64Array): void {
  const { cells: n, offset: o, faceArea, cellArea, left, right, wallArea, slope, fanning } = duct;
  const { rho, u, p, b, T, R, cv, c, e, eBurn, wallTemperature, heatMultiplier } = duct;
  const dR = duct.tables.burnedR - duct.tables.freshR;
  let mass = left[FLUX.mass];
  let momentum = left[FLUX.momentum];
  let energy = left[FLUX.energy];
  let burned = left[FLUX.burned];
  let heat = 0;
  for (let i = 0; i < n; i++) {
    // Shear stress f rho u |u| / 2; heat by Reynolds analogy, h = (f / 2) rho |u| cp.
    const shear = 0.5 * fanning * rho[i] * Math.abs(u[i]) * wallArea[i];
    const q = heatMultiplier * shear * (cv[i] + R[i]) * (wallTemperature - T[i]);
    heat += q;
    const massIn = mass;
    const momentumIn = momentum + p[i] * (faceArea[i + 1] - faceArea[i]) - shear * u[i];
    const energyIn = energy + q;
    const burnedIn = burned;
    if (i < n - 1) {
      const r = i + 1;
      const rhoL = rho[i] + 0.5 * slope[i];
      const perFace = 1 / faceArea[r];
      const uL = (u[i] * cellArea[i] + 0.5 * slope[n + i]) * perFace;
      const pL = p[i] + 0.5 * slope[2 * n + i];
      const rhoR = rho[r] - 0.5 * slope[r];
      const uR = (u[r] * cellArea[r] - 0.5 * slope[n + r]) * perFace;
      const pR = p[r] - 0.5 * slope[2 * n + r];
      // Least and greatest of two, without a branch that no processor can guess.
      const downL = uL - c[i];
      const downR = uR - c[r];
      const upL = uL + c[i];
      const upR = uR + c[r];
      const sL = 0.5 * (downL + downR - Math.abs(downL - downR));
      const sR = 0.5 * (upL + upR + Math.abs(upL - upR));
      const kL = rhoL * (sL - uL);
      const kR = rhoR * (sR - uR);
      const sM = (pR - pL + kL * uL - kR * uR) / (kL - kR);
      // The side the contact comes from: its cell, and its state at the face.
      const fromLeft = sM >= 0;
      const at = fromLeft ? i : r;
      const db = fromLeft ? 0.5 * slope[3 * n + i] : -0.5 * slope[3 * n + r];
      const rhoF = fromLeft ? rhoL : rhoR;
      const uF = fromLeft ? uL : uR;
      const pF = fromLeft ? pL : pR;
      const eF = e[at] + cv[at] * (pF / (rhoF * (R[at] + dR * db)) - T[at]) + eBurn[at] * db;
      const E = eF + 0.5 * uF * uF;
      mass = rhoF * uF;
      momentum = mass * uF + pF;
      energy = mass * E + pF * uF;
      if (fromLeft ? sL < 0 : sR > 0) {
        const s = fromLeft ? sL : sR;
        const k = fromLeft ? kL : kR;
        const rhoS = k / (s - sM);
        mass += s * (rhoS - rhoF);
        momentum += s * (rhoS * sM - rhoF * uF);
        energy += s * (rhoS * (E + (sM - uF) * (sM + pF / k)) - rhoF * E);
      }
      const A = faceArea[r];
      mass *= A;
      momentum *= A;
      energy *= A;
      burned = mass * (b[at] + db);
    } else {
      mass = right[FLUX.mass];
      momentum = right[FLUX.momentum];
      energy = right[FLUX.energy];
      burned = right[FLUX.burned];
    }
    d[o + i] += massIn - mass;
    d[o + n + i] += momentumIn - momentum;
    d[o + 2 * n + i] += energyIn - energy;
    d[o + 3 * n + i] += burnedIn - burned;
  }
  d[o + DUCT_FIELDS * n] += heat;
}

export function ductGroup(ducts: readonly Duct[]): PartGroup {
  return {
    decode(y) {
      for (const duct of ducts) decodeDuct(duct, y);
    },
    addRates(_y, d) {
      for (const duct of ducts) balanceDuct(duct, d);
    },
    // Signal speed over cell length.
    raiseFastest(fastest) {
      for (const { cells, u, c, dx } of ducts) {
        let most = 0;
        for (let i = 0; i < cells; i++) {
          const s = Math.abs(u[i]) + c[i];
          if (s > most) most = s;
        }
        if (most / dx > fastest[FASTEST.wave]) fastest[FASTEST.wave] = most / dx;
      }
    },
    isSound() {
      for (const { cells, p, c } of ducts)
        for (let i = 0; i < cells; i++) if (!(p[i] > 0 && c[i] > 0)) return false;
      return true;
    },
    account(before, after, account) {
      for (const { offset, cells, weight } of ducts) {
        const heat = offset + DUCT_FIELDS * cells;
        account.ductHeat -= weight * (after[heat] - before[heat]);
      }
    },
  };
}
