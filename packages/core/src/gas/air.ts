/** Dry and humid air, and how much water air can hold. */
import { DomainError } from '../base/errors.ts';
import { type Component, type Mixture, mixture } from './mixture.ts';
import { species } from './species.ts';

const NITROGEN = 0.78084;
const OXYGEN = 0.209476;
const CARBON_DIOXIDE = 0.000314;

/**
 * Mole fractions of dry air [-]: US Standard Atmosphere 1976, table 3 (ISO 2533:1975 has the same air).
 * Argon's 0.00934 carries the other inert traces (neon, helium and the rest, 0.00003), so that the sum is 1.
 */
export const DRY_AIR: readonly { readonly species: string; readonly moles: number }[] = [
  { species: 'N2', moles: NITROGEN },
  { species: 'O2', moles: OXYGEN },
  { species: 'Ar', moles: 1 - NITROGEN - OXYGEN - CARBON_DIOXIDE },
  { species: 'CO2', moles: CARBON_DIOXIDE },
];

/**
 * Components of the humid air that holds one mole of dry air [mol].
 *
 * @param pressure - total pressure of the air [Pa], positive
 * @param vapourPressure - partial pressure of its water vapour [Pa], from 0 to below the total
 * @throws {@link DomainError} naming the argument out of range
 */
export function humidAirComponents(pressure: number, vapourPressure: number): readonly Component[] {
  if (!(pressure > 0 && pressure < Number.POSITIVE_INFINITY))
    throw new DomainError('pressure', pressure, 'positive Pa');
  if (!(vapourPressure >= 0 && vapourPressure < pressure))
    throw new DomainError('vapourPressure', vapourPressure, `in [0, pressure = ${pressure}) Pa`);
  const dry = DRY_AIR.map((part) => ({ gas: species(part.species), moles: part.moles }));
  return [...dry, { gas: species('H2O'), moles: vapourPressure / (pressure - vapourPressure) }];
}

/** Humid air as a gas; arguments as for {@link humidAirComponents}. */
export function humidAir(pressure: number, vapourPressure: number): Mixture {
  return mixture(humidAirComponents(pressure, vapourPressure));
}

/**
 * Saturation pressure of water vapour over liquid water in moist air [Pa], from -20 to 50 degC within 0.1 %.
 *
 * Buck, J. Appl. Meteorol. 20 (1981) 1527, curves `ew1` and `fw3` (constants from memory, checked against
 * the steam tables in the tests): 611.21 Pa exp(17.502 t / (240.97 + t)) times 1.0007 + 3.46e-8 p.
 *
 * @param T - temperature [K], 233 to 333
 * @param pressure - total pressure [Pa], for the small enhancement by air
 * @throws {@link DomainError} naming the argument out of range
 */
export function saturationPressure(T: number, pressure = 0): number {
  if (!(T >= 233 && T <= 333)) throw new DomainError('T', T, 'in [233, 333] K');
  if (!(pressure >= 0)) throw new DomainError('pressure', pressure, 'zero or positive Pa');
  const t = T - 273.15;
  const enhancement = pressure > 0 ? 1.0007 + 3.46e-8 * pressure : 1;
  return enhancement * 611.21 * Math.exp((17.502 * t) / (240.97 + t));
}

/**
 * Partial pressure of water vapour [Pa] in air of a relative humidity.
 *
 * @param relativeHumidity - share of saturation [-], 0 to 1
 * @param T - air temperature [K], 233 to 333
 * @param pressure - total pressure [Pa], for the small enhancement by air
 */
export function vapourPressureOf(relativeHumidity: number, T: number, pressure = 0): number {
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1))
    throw new DomainError('relativeHumidity', relativeHumidity, 'in [0, 1]');
  return relativeHumidity * saturationPressure(T, pressure);
}
