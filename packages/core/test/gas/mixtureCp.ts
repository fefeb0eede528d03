/** Heat capacity of a mixture, for the identities that its enthalpy has to meet. */

import type { Mixture } from '../../src/gas/mixture.ts';
import { cpOverR } from '../../src/gas/nasaPolynomial.ts';

/** Specific heat capacity at constant pressure [J/(kg K)]. */
export function mixtureCp(gas: Mixture, T: number): number {
  return gas.R * cpOverR(gas, T);
}
