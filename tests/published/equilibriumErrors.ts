/** How far equilibrium products stand from a state of the reference. */
import { burnedGas } from '../../packages/core/src/gas/burnedGas.ts';
import { equilibriumProducts, PRODUCTS } from '../../packages/core/src/gas/equilibrium.ts';
import { mixtureH, mixtureS, mixtureU } from '../../packages/core/src/gas/mixture.ts';
import type reference from '../data/equilibrium-products.json';
import { blendedMixture, fromReference } from './gasReference.ts';

type ReferenceRow = (typeof reference)['rows'][number];

/** Absolute differences. */
export interface EquilibriumErrors {
  /** Internal energy and enthalpy, the larger [J/kg]. */
  readonly u: number;
  /** [J/(kg K)] */
  readonly s: number;
  /** Gas constant, as a share. */
  readonly R: number;
  /** Mole fractions above 1e-9, as a share, the largest. */
  readonly X: number;
}

const FUELS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  'iso-octane': { iC8H18: 1 },
  'gasoline CH1.87': { iC8H18: 0.626, C7H8: 0.374 },
  ethanol: { C2H5OH: 1 },
  methanol: { CH3OH: 1 },
};

const products: readonly string[] = PRODUCTS;

export function equilibriumErrors(row: ReferenceRow): EquilibriumErrors & { readonly iterations: number } {
  const { atoms } = blendedMixture(FUELS[row.fuel], row.phi).gas;
  const p = fromReference(row.p_bar * 1e5);
  const solution = equilibriumProducts(atoms, row.T_K, p);
  const gas = burnedGas(atoms, row.T_K, p);
  const fractions = Object.entries(row.X)
    // Four digits are printed; below 1e-12 the reference stops refining its traces.
    .filter(([, x]) => x > 1e-9)
    .map(([name, x]) => Math.abs(solution.fractions[products.indexOf(name)] / x - 1));
  return {
    u: Math.max(
      Math.abs(mixtureU(gas, row.T_K) - row.u_J_per_kg),
      Math.abs(mixtureH(gas, row.T_K) - row.h_J_per_kg),
    ),
    s: Math.abs(mixtureS(gas, row.T_K) - gas.R * Math.log(p / 1e5) - row.s_J_per_kgK),
    R: Math.abs(gas.R / row.R_J_per_kgK - 1),
    X: Math.max(...fractions),
    iterations: solution.converged ? solution.iterations : Number.POSITIVE_INFINITY,
  };
}
