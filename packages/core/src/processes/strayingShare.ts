/** Drops too heavy to go where the air goes. */
import { LIQUID_DENSITY } from '../gas/liquidFuel.ts';
import { airViscosity } from './viscosity.ts';

/** Of the charge of an intake [K]. */
const COOL = 295;

/**
 * Share of drops that don't go along with air which turns and mixes [-]: in eddies that last for `time` a drop's motion follows by 1/(1 + St), St the time it takes to
 * be brought to the air's speed, `density diameter^2 / (18 viscosity)` (Stokes), over the eddies' (Tchen, 1947, for kinetic energies; from memory).
 *
 * @param diameter - [m]
 * @param time - that the air takes to mix [s]
 */
export function strayingShare(diameter: number, time: number): number {
  const stokes = (LIQUID_DENSITY * diameter * diameter) / (18 * airViscosity(COOL) * time);
  return stokes / (1 + stokes);
}
