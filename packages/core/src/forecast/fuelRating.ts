/** What the standard engine finds of a fuel by its two methods, and in which charge. */
import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { freshGas, stoichiometricAirFuelRatio } from '../gas/freshGas.ts';
import type { Fuel } from '../gas/fuel.ts';
import { fuelNamed } from '../gas/fuels.ts';
import { mixtureS } from '../gas/mixture.ts';
import { findRoot } from '../numerics/root.ts';
import { knockRate, octaneRequired, RATING_TEMPERATURES, SHARE_PRESSURE } from '../processes/knock.ts';

/** A fuel on the standard engine. */
export interface FuelRating {
  /** Unburned gas by the research method, compressed to the pressure at which the share of the motor method is asked for [K]. */
  readonly temperature: number;
  /** Of the reference fuels that would knock as early in that gas by the research and by the motor method, 0 at the least: the scale begins there [-]. */
  readonly research: number;
  readonly motor: number;
}

/** Share of the latent heat that the gas gives [-]; walls give the rest, as in a forecast. */
const GAS_SHARE = 0.7;
/** Heat capacity of a charge [J/(kg K)]. */
const HEAT_CAPACITY = 1050;

/** Charge of the standard engine by the research method at the closing of its intake, as the program runs it [K, Pa], and its lambda [-]. */
const CLOSING = { T: 394, p: 1.06e5 } as const;
const LAMBDA = 0.89;
/** Pressure of its end gas where most of the delay is used up [Pa]. */
const END_PRESSURE = 35e5;

/** Octane numbers that a kelvin of a fuel's own cold is worth there: ethanol's 48 K some 5 (Foong et al., SAE 2013-01-0886, from memory). */
const NUMBERS_PER_KELVIN = 0.1;

/**
 * The standard engine gives a fuel the number of the reference fuel that knocks at the same height, and each makes its own charge.
 *
 * Gas with less heavy vapour in it, or with vapour of less heat capacity, gets warmer when it is compressed: with gasoline, a third of it
 * aromatic, the standard engine asks for one number more than with a reference fuel at the same height, by both methods. A gasoline that
 * is rated as high bears that much more, and a forecast, whose own gas holds this fuel, asks for it.
 *
 * A fuel that takes more heat to evaporate is rated in colder gas by the research method: part of its number is that cold, which a forecast has in its
 * own gas already. The motor method heats the mixture until all is vapour, so that there every fuel has gas as warm.
 */
export function fuelRating(fuel: Fuel): FuelRating {
  const known = rated.get(fuel);
  if (known !== undefined) return known;
  const rating = rate(fuel);
  rated.set(fuel, rating);
  return rating;
}

/** What was found already: every timing of every speed asks for it. */
const rated = new WeakMap<Fuel, FuelRating>();

function rate(fuel: Fuel): FuelRating {
  const reference = fuelNamed('iso-octane');
  const colder = (GAS_SHARE * (heatTaken(fuel) - heatTaken(reference))) / HEAT_CAPACITY;
  const { T, p } = CLOSING;
  const warm = knockRate(END_PRESSURE, compressed(fuel, T, END_PRESSURE / p));
  const asReference = knockRate(END_PRESSURE, compressed(reference, T, END_PRESSURE / p));
  const gain = octaneRequired(warm / asReference) / octaneRequired(1);
  const up = SHARE_PRESSURE / p;
  return {
    temperature:
      (RATING_TEMPERATURES.research * compressed(fuel, T - colder, up)) / compressed(reference, T, up),
    research: Math.max(0, fuel.researchOctane * gain - NUMBERS_PER_KELVIN * colder),
    motor: fuel.motorOctane * gain,
  };
}

/** Temperature of fresh gas with this fuel after compressing it without heat from T by a ratio of pressures [K]. */
function compressed(fuel: Fuel, T: number, ratio: number): number {
  const { gas } = freshGas(fuel, LAMBDA, STANDARD_ATMOSPHERE, 0);
  const entropy = mixtureS(gas, T) + gas.R * Math.log(ratio);
  return findRoot((end) => mixtureS(gas, end) - entropy, T, 4 * T).x;
}

/** Latent heat of the fuel in a kilogram of stoichiometric mixture [J/kg]. */
function heatTaken(fuel: Fuel): number {
  return fuel.latentHeat / (1 + stoichiometricAirFuelRatio(fuel));
}
