/** How much of an unburned charge takes no part in burning. */
import { R_UNIVERSAL } from '../base/constants.ts';
import { frozenR } from './frozenBlend.ts';
import type { GasTables } from './gasTables.ts';
import { species } from './species.ts';

/**
 * Moles of burned gas and of the water that came with the air, over all moles of an unburned charge [-].
 *
 * @param residual - mass of burned gas over mass of the charge [-]
 */
export function diluentShare(tables: GasTables, residual: number): number {
  const { burnedR, freshR, dryAirFraction, fuelFraction } = tables;
  const burned = Math.min(1, (residual * burnedR) / frozenR(tables, residual));
  // Rounding may leave a little less than none.
  const water = Math.max(0, 1 - dryAirFraction - fuelFraction);
  const waterR = R_UNIVERSAL / species('H2O').molarMass;
  return burned + ((1 - burned) * water * waterR) / freshR;
}
