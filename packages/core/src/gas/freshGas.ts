/** Fresh gas: humid air with the vapour of a fuel. */
import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import { DRY_AIR, humidAirComponents } from './air.ts';
import { atomMass, oxygenDemand } from './atoms.ts';
import { type Fuel, fuelVapour } from './fuel.ts';
import { type Mixture, mixture } from './mixture.ts';
import { species } from './species.ts';

/** Fresh gas and what a kilogram of it holds. */
export interface FreshGas {
  readonly gas: Mixture;
  /** Mass of fuel in a kilogram [-]. */
  readonly fuelFraction: number;
  /** Mass of dry air in a kilogram [-]. */
  readonly dryAirFraction: number;
}

/**
 * Fresh gas of a mixture ratio and humidity.
 *
 * @param fuel - the fuel
 * @param lambda - dry air over the dry air that complete combustion needs [-], 0.5 to 20
 * @param pressure - total pressure of the air before fuel is added [Pa]
 * @param vapourPressure - partial pressure of water in that air [Pa]
 * @param vapourShare - share of the fuel that is vapour [-], 0 to 1; the rest is no gas and is left out
 * @throws {@link DomainError} naming the argument out of range
 */
export function freshGas(
  fuel: Fuel,
  lambda: number,
  pressure: number,
  vapourPressure: number,
  vapourShare = 1,
): FreshGas {
  if (!(vapourShare >= 0 && vapourShare <= 1)) throw new DomainError('vapourShare', vapourShare, 'in [0, 1]');
  if (!(lambda >= 0.5 && lambda <= 20)) throw new DomainError('lambda', lambda, 'in [0.5, 20]');
  const air = humidAirComponents(pressure, vapourPressure);
  const vapour = fuelVapour(fuel);
  const oxygen = DRY_AIR.reduce((sum, part) => (part.species === 'O2' ? sum + part.moles : sum), 0);
  const fuelMoles = (vapourShare * oxygen) / (lambda * oxygenDemand(vapour.atoms));
  const gas = mixture([...air, { gas: vapour, moles: fuelMoles }]);
  // The air's components hold one mole of dry air.
  const dryAirMass = DRY_AIR.reduce((sum, part) => sum + part.moles * species(part.species).molarMass, 0);
  const fuelMass = fuelMoles * vapour.molarMass;
  const mass = air.reduce((sum, part) => sum + part.moles * atomMass(part.gas.atoms), 0) + fuelMass;
  return { gas, fuelFraction: fuelMass / mass, dryAirFraction: dryAirMass / mass };
}

/** Dry air over fuel at complete combustion without excess, by mass [-]. */
export function stoichiometricAirFuelRatio(fuel: Fuel): number {
  const fresh = freshGas(fuel, 1, STANDARD_ATMOSPHERE, 0);
  return fresh.dryAirFraction / fresh.fuelFraction;
}
