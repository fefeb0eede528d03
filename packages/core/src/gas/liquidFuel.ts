/** A fuel while it is liquid: what it holds of heat, and how much of it the charge can take up as vapour. */
import { STANDARD_ATMOSPHERE, T_REFERENCE } from '../base/constants.ts';
import { atomMass } from './atoms.ts';
import { type Fuel, fuelVapour } from './fuel.ts';
import { mixtureH } from './mixture.ts';

/** Specific heat of liquid fuel [J/(kg K)]: gasoline 2.2e3 to 2.4e3, alcohols 2.4e3 to 2.5e3 in tables; from memory. */
export const LIQUID_HEAT_CAPACITY = 2300;
/** Density of liquid fuel [kg/m3]: gasoline 720 to 780, alcohols 790; from memory. */
export const LIQUID_DENSITY = 750;

/** What the network needs of a fuel that is still liquid. */
export interface LiquidFuel {
  /** Gas constant of its vapour [J/(kg K)]. */
  readonly R: number;
  /** Enthalpy of the liquid at 298.15 K, with formation [J/kg]. */
  readonly enthalpy: number;
  /** [J/kg] */
  readonly latentHeat: number;
  /** [K] */
  readonly boilingPoint: number;
}

/** The fuel as a liquid; null for one that is a gas. */
export function liquidFuel(fuel: Fuel): LiquidFuel | null {
  const { latentHeat, boilingPoint } = fuel;
  if (!(latentHeat > 0)) return null;
  const vapour = fuelVapour(fuel);
  return { R: vapour.R, enthalpy: mixtureH(vapour, T_REFERENCE) - latentHeat, latentHeat, boilingPoint };
}

/** Enthalpy of the liquid with formation [J/kg]. */
export function liquidEnthalpy(liquid: LiquidFuel, T: number): number {
  return liquid.enthalpy + LIQUID_HEAT_CAPACITY * (T - T_REFERENCE);
}

/**
 * Pressure of the vapour over the liquid [Pa]: Clausius and Clapeyron with a constant latent heat, through the boiling point.
 * Within 15 % of tables from 280 K to the boiling point for the fuels shipped; a real gasoline gives its light parts off first.
 */
export function fuelVapourPressure(liquid: LiquidFuel, T: number): number {
  return STANDARD_ATMOSPHERE * Math.exp((liquid.latentHeat / liquid.R) * (1 / liquid.boilingPoint - 1 / T));
}

/**
 * Boiling point [K] of a fuel of which only atoms and latent heat are known: Trouton's rule, here with the latent heat at 298 K
 * and 97 J/(mol K), 115 for an alcohol's molecule; the pure fuels shipped within 4 %.
 */
export function troutonBoilingPoint(
  latentHeat: number,
  atoms: { readonly C: number; readonly H: number; readonly O: number },
): number {
  const perMole = latentHeat * atomMass({ ...atoms, N: 0, Ar: 0 });
  return perMole / (97 + 18 * Math.min(1, atoms.O));
}
