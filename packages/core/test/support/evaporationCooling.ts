/** What evaporating fuel does to the temperature of the charge, worked by hand beside what the network does. */

/** Specific heat of air at constant pressure near room temperature [J/(kg K)]. */
const AIR_CP = 1005;
/** Specific heat of liquid fuel [J/(kg K)]: gasoline 2.2e3 to 2.4e3, alcohols 2.4e3 to 2.5e3 in tables; from memory. */
const LIQUID_FUEL_CP = 2300;

/**
 * Fall of the temperature of the air [K] when a share of its fuel evaporates in it and nothing else gives heat, fuel and air at
 * one temperature before: energy balance of Heywood, Internal Combustion Engine Fundamentals (1988), section 6.2 (from memory).
 */
export function evaporationCooling(share: number, fuelPerAir: number, latentHeat: number): number {
  return (share * fuelPerAir * latentHeat) / (AIR_CP + fuelPerAir * LIQUID_FUEL_CP);
}
