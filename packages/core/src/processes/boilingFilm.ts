/** How much heat hot metal gives to a film of fuel that boils on it. */
import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { LIQUID_DENSITY, type LiquidFuel } from '../gas/liquidFuel.ts';

/** Surface tension of a fuel at its boiling point [N/m]: alcohols 0.017 to 0.019, iso-octane 0.0135; from memory. Its fourth root counts. */
const SURFACE_TENSION = 0.017;
/** Of a large plate [-]. */
const ZUBER = 0.131;
/** [m/s2] */
const GRAVITY = 9.81;

/**
 * The most that a boiling liquid takes from a plate [W/m2]: beyond it vapour keeps the liquid off the metal. N. Zuber, Trans. ASME 80 (1958)
 * 711, at one atmosphere; from memory: `0.131 L sqrt(rho_v) (sigma g (rho_l - rho_v))^(1/4)`.
 */
export function mostBoilingFlux({ R, latentHeat, boilingPoint }: LiquidFuel): number {
  const vapour = STANDARD_ATMOSPHERE / (R * boilingPoint);
  const buoyancy = SURFACE_TENSION * GRAVITY * (LIQUID_DENSITY - vapour);
  return ZUBER * latentHeat * Math.sqrt(vapour) * buoyancy ** 0.25;
}
