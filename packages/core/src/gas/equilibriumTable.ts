/** Burned gas at equilibrium, tabulated over temperature and pressure. */
import { BAR, R_UNIVERSAL } from '../base/constants.ts';
import { type AtomCounts, atomMass } from './atoms.ts';
import { PRODUCT_COUNT, PRODUCTS, reactionConstants, solveProducts, startProducts } from './equilibrium.ts';
import type { EquilibriumTable } from './gasTables.ts';
import { type Mixture, mixtureU } from './mixture.ts';
import { hOverR } from './nasaPolynomial.ts';
import { species } from './species.ts';

/** Temperature step [K]. */
const DT = 20;
/** The grid reaches at least to this temperature [K]. */
const T_MAX = 3600;
/** Least pressure of the grid [Pa]. */
const P_MIN: number = 0.3 * BAR;
/** Highest pressure of the grid [Pa]. */
const P_MAX: number = 300 * BAR;
/** Number of pressures. */
const PRESSURES = 64;
/** Width above the freezing temperature over which frozen properties give way to equilibrium ones [K]. */
const JOIN = 100;

/** A table and what it cost. */
export interface TabulatedEquilibrium {
  readonly table: EquilibriumTable;
  /** Newton iterations over all points. */
  readonly iterations: number;
  /** Points that did not converge. */
  readonly failures: number;
}

/**
 * Internal energy and gas constant of the equilibrium products of `atoms` from the freezing temperature to
 * 3600 K and 0.3 to 300 bar.
 *
 * Over the first 100 K the properties of the frozen gas give way to those at equilibrium in proportion, so that
 * the table is continuous with the frozen gas at every pressure. The join departs from equilibrium by less than
 * 1 kJ/kg above 5 bar and 4 kJ/kg at 0.3 bar. Above it bilinear interpolation errs by less than 1.4 kJ/kg and 0.007 % of R
 * (worst at the least pressure, above 3000 K), tested against the solver at the middle of cells.
 *
 * @param atoms - moles of atoms in any basis
 * @param frozen - the gas of the frozen composition
 * @param freezeTemperature - [K]
 */
export function tabulateEquilibrium(
  atoms: AtomCounts,
  frozen: Mixture,
  freezeTemperature: number,
): TabulatedEquilibrium {
  const temperatureCount = Math.ceil((T_MAX - freezeTemperature) / DT) + 1;
  const lnPMin = Math.log(P_MIN);
  const dLnP = Math.log(P_MAX / P_MIN) / (PRESSURES - 1);
  const u = new Float64Array(temperatureCount * PRESSURES);
  const R = new Float64Array(temperatureCount * PRESSURES);
  const gases = PRODUCTS.map(species);
  const mass = atomMass(atoms);
  const k = new Float64Array(6);
  const enthalpies = new Float64Array(PRODUCT_COUNT);
  const fractions = new Float64Array(PRODUCT_COUNT);
  const unknowns = new Float64Array(2);
  let iterations = 0;
  let failures = 0;
  for (let it = 0; it < temperatureCount; it++) {
    const T = freezeTemperature + it * DT;
    const share = Math.min(1, (it * DT) / JOIN);
    const frozenU = mixtureU(frozen, T);
    reactionConstants(T, k);
    for (let i = 0; i < PRODUCT_COUNT; i++) enthalpies[i] = hOverR(gases[i], T);
    for (let ip = 0; ip < PRESSURES; ip++) {
      const p = Math.exp(lnPMin + ip * dLnP);
      // From the neighbour at the pressure below, where there is one.
      if (ip === 0) startProducts(atoms, p, k, unknowns);
      else unknowns[1] += dLnP;
      const used = solveProducts(atoms, p, k, unknowns, fractions);
      iterations += Math.abs(used);
      if (used < 0) failures++;
      const moles = p / BAR / Math.exp(unknowns[1]);
      let h = 0;
      for (let i = 0; i < PRODUCT_COUNT; i++) h += fractions[i] * enthalpies[i];
      const gasConstant = (R_UNIVERSAL * moles) / mass;
      const at = it * PRESSURES + ip;
      R[at] = (1 - share) * frozen.R + share * gasConstant;
      u[at] = (1 - share) * frozenU + share * gasConstant * (h - T);
    }
  }
  const table = {
    tMin: freezeTemperature,
    dT: DT,
    temperatureCount,
    lnPMin,
    dLnP,
    pressureCount: PRESSURES,
    u,
    R,
  };
  return { table, iterations, failures };
}
