/** Burned gas as a gas of the composition it has at equilibrium at one state. */
import { DomainError } from '../base/errors.ts';
import type { AtomCounts } from './atoms.ts';
import { equilibriumProducts, PRODUCTS } from './equilibrium.ts';
import { type Mixture, mixture } from './mixture.ts';
import { species } from './species.ts';

/**
 * Equilibrium products of the given atoms at T and p, as a mixture.
 *
 * @param atoms - moles of atoms in any basis
 * @param T - [K], 200 to 6000
 * @param p - [Pa]
 */
export function burnedGas(atoms: AtomCounts, T: number, p: number): Mixture {
  const products = equilibriumProducts(atoms, T, p);
  if (!products.converged)
    throw new DomainError(
      'atoms',
      JSON.stringify(atoms),
      `a mixture whose products converge at ${T} K, ${p} Pa`,
    );
  return mixture(PRODUCTS.map((name, i) => ({ gas: species(name), moles: products.fractions[i] })));
}
