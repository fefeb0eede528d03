/** What evaporating fuel does to the temperature of the charge. */
import { DomainError } from '../base/errors.ts';

/** Specific heat of air at constant pressure near room temperature [J/(kg K)]. */
export const AIR_CP = 1005;

/** Specific heat of liquid fuel [J/(kg K)]: gasoline 2.2e3 to 2.4e3, alcohols 2.4e3 to 2.5e3 in tables; from memory. */
export const LIQUID_FUEL_CP = 2300;

/**
 * Fall of the temperature of the air [K] when a share of its fuel evaporates in it and nothing else gives heat:
 * share F L / (cp + F cf), fuel and air at one temperature before.
 *
 * Source: energy balance of Heywood, Internal Combustion Engine Fundamentals (1988), section 6.2 (from memory), with the
 * whole fuel taken at its liquid specific heat. Nothing checks that the air can hold so much vapour: with methanol it
 * can't, and the share is then well below one.
 *
 * @param share - of the fuel that evaporates with heat from the air [-], 0 to 1
 * @param fuelPerAir - mass of fuel to mass of air [-]
 * @param latentHeat - [J/kg of fuel]
 * @throws {@link DomainError} naming the first argument out of range
 */
export function evaporationCooling(share: number, fuelPerAir: number, latentHeat: number): number {
  if (!(share >= 0 && share <= 1)) throw new DomainError('share', share, 'in [0, 1]');
  if (!(fuelPerAir >= 0 && fuelPerAir < Number.POSITIVE_INFINITY)) {
    throw new DomainError('fuelPerAir', fuelPerAir, 'zero or positive');
  }
  if (!(latentHeat >= 0 && latentHeat < Number.POSITIVE_INFINITY)) {
    throw new DomainError('latentHeat', latentHeat, 'zero or positive J/kg');
  }
  return (share * fuelPerAir * latentHeat) / (AIR_CP + fuelPerAir * LIQUID_FUEL_CP);
}
