/** What the research method finds of a fuel, and in which charge. */
import { stoichiometricAirFuelRatio } from '../gas/freshGas.ts';
import type { Fuel } from '../gas/fuel.ts';
import { fuelNamed } from '../gas/fuels.ts';
import { RATING_TEMPERATURES } from '../processes/knock.ts';

/** A fuel on the standard engine by the research method. */
export interface ResearchRating {
  /** Unburned gas compressed to the pressure at which the share of the motor method is asked for [K]. */
  readonly temperature: number;
  /** Of the reference fuel that would knock as early in that gas [-]. */
  readonly octane: number;
}

/** Share of the latent heat that the gas gives [-]; walls give the rest, as in a forecast. */
const GAS_SHARE = 0.7;
/** Heat capacity of a charge [J/(kg K)]. */
const HEAT_CAPACITY = 1050;
/** Of the standard engine by the research method as the program runs it: charge at the closing of its intake [K], and octane numbers a kelvin there. */
const CLOSING = 392;
const NUMBERS_PER_KELVIN = 0.06;

/**
 * The research method gives a fuel the number of the reference fuel that knocks at the same height, and each makes its own
 * charge. One that takes more heat to evaporate is rated in colder gas: part of its number is that cold, which a forecast has in its
 * own gas already. The motor method heats the mixture until all is vapour, so that there every fuel has the same gas.
 *
 * Ethanol rated in gas as warm as a reference fuel's came to some 5 numbers less (Foong et al., SAE 2013-01-0886, from memory); here it is 4.
 */
export function researchRating(fuel: Fuel): ResearchRating {
  const colder = (GAS_SHARE * (heatTaken(fuel) - heatTaken(fuelNamed('iso-octane')))) / HEAT_CAPACITY;
  const { research } = RATING_TEMPERATURES;
  return {
    temperature: research - (colder * research) / CLOSING,
    octane: fuel.researchOctane - NUMBERS_PER_KELVIN * colder,
  };
}

/** Latent heat of the fuel in a kilogram of stoichiometric mixture [J/kg]. */
function heatTaken(fuel: Fuel): number {
  return fuel.latentHeat / (1 + stoichiometricAirFuelRatio(fuel));
}
