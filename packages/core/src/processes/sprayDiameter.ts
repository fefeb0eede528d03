/** How coarse the fuel is that air tears from a carburetor's nozzle. */
import { LIQUID_DENSITY } from '../gas/liquidFuel.ts';

/** Surface tension of gasoline, and of alcohols, at 20 degC [N/m]: 0.020 to 0.023 in tables; from memory. */
const SURFACE_TENSION = 0.022;
/** Viscosity of gasoline at 20 degC [Pa s]: 0.4e-3 to 0.6e-3, methanol too; from memory. It hardly counts here. */
const VISCOSITY = 0.5e-3;

/** Of the first term, which the speed of the air makes [-]. */
const BY_SPEED = 0.585;
/** Of the second term, which the liquid on the air makes [m], and its powers [-]. */
const BY_LOAD = 53.2;
const OF_VISCOSITY = 0.45;
const OF_LOAD = 1.5;

/**
 * Sauter mean diameter of drops that a stream of air tears from a jet of fuel [m]: S. Nukiyama and Y. Tanasawa, Trans. Soc. Mech. Engrs. Japan 4
 * to 6 (1938 to 1940), as it is printed in handbooks of venturi scrubbers, in SI units:
 * `0.585/v sqrt(sigma/rho) + 53.2 (mu/sqrt(sigma rho))^0.45 (liquid/air)^1.5`, which is 585 and 597 um in units of cm, g and s. Found with small
 * nozzles, drops of 15 to 90 um and air of 70 m/s up to sound; below 70 m/s it is continued, not known.
 *
 * @param speed - of the air past the fuel [m/s]
 * @param load - liquid over air by volume [-]
 */
export function sprayDiameter(speed: number, load: number): number {
  const sheared = (BY_SPEED / speed) * Math.sqrt(SURFACE_TENSION / LIQUID_DENSITY);
  const damped = (VISCOSITY / Math.sqrt(SURFACE_TENSION * LIQUID_DENSITY)) ** OF_VISCOSITY;
  return sheared + BY_LOAD * damped * load ** OF_LOAD;
}
