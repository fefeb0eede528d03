/** What heat does to a fuel beside what it does to gasoline. */

import { stoichiometricAirFuelRatio } from './freshGas.ts';
import type { Fuel } from './fuel.ts';
import { fuelNamed } from './fuels.ts';

/** Latent heat of gasoline over that of the fuel, by the kilogram of fuel and by the kilogram of air [-]; 1 for a gas, of which nothing evaporates. */
export function latentBesideGasoline(fuel: Fuel): { readonly byFuel: number; readonly byAir: number } {
  const gasoline = fuelNamed('pump-93');
  if (!(fuel.latentHeat > 0)) return { byFuel: 1, byAir: 1 };
  const byFuel = gasoline.latentHeat / fuel.latentHeat;
  return {
    byFuel,
    byAir: (byFuel * stoichiometricAirFuelRatio(fuel)) / stoichiometricAirFuelRatio(gasoline),
  };
}
