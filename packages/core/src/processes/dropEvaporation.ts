/** How fast drops of fuel evaporate in the gas of a cylinder. */
import { fuelVapourPressure, LIQUID_DENSITY, type LiquidFuel } from '../gas/liquidFuel.ts';

/** Molar gas constant of the gas around the drops, air and burned gas alike [J/(kg K)]. */
const GAS_R = 288;
/** Specific heat of the film around a drop [J/(kg K)]. */
const FILM_CP = 1100;
/** Conductivity of air [W/(m K)] at 300 K, and the power of temperature it rises with. */
const CONDUCTIVITY = 0.026;
const CONDUCTIVITY_EXPONENT = 0.8;
/** Halvings of the search for the drop's own temperature: to a tenth of a kelvin. */
const HALVINGS = 11;
/** Coldest drop that is looked for [K]. */
const COLDEST = 220;

/**
 * A drop: Sauter mean diameter [m], speed of the gas past it [m/s], temperature [K], pressure [Pa] and mass fraction of fuel vapour of the
 * gas; and the share of the liquid that evaporates in a second [1/s]. In an array, since numbers handed over are put on the heap.
 */
export const DROP = { diameter: 0, slip: 1, T: 2, p: 3, vapour: 4, rate: 5 } as const;
export const DROP_SIZE = 6;

/**
 * Share of the liquid that evaporates in a second [1/s]: the steady drop of D. B. Spalding (Fourth Symposium on Combustion, 1953, 847),
 * Lewis number one: 12 (k / cp) ln(1 + B) / (density diameter^2), times what slip adds by Ranz and Marshall, Chem. Eng. Prog. 48
 * (1952) 141: 1 + 0.3 Re^(1/2) Pr^(1/3). The drop is as cold as its evaporation makes it, B = cp (T - Ts) / L = (Ys - Y) / (1 - Ys);
 * where the gas is full of vapour nothing evaporates. All from memory.
 *
 * @param drop - see {@link DROP}; the share is written into it
 */
export function evaporateDrop(liquid: LiquidFuel, drop: Float64Array): void {
  const T = drop[DROP.T];
  const p = drop[DROP.p];
  const vapour = drop[DROP.vapour];
  const diameter = drop[DROP.diameter];
  drop[DROP.rate] = 0;
  let low = COLDEST;
  let high = Math.min(T, liquid.boilingPoint);
  if (!(high > low)) return;
  let B = 0;
  for (let i = 0; i < HALVINGS; i++) {
    const Ts = 0.5 * (low + high);
    B = (FILM_CP * (T - Ts)) / liquid.latentHeat;
    const surface = vapourFraction(liquid, Ts, p);
    // More vapour at the surface than heat could make there: the drop is colder.
    if (surface - vapour > B * (1 - surface)) high = Ts;
    else low = Ts;
  }
  if (!(B > 0)) return;
  const film = 0.5 * (T + low);
  const k = CONDUCTIVITY * (film / 300) ** CONDUCTIVITY_EXPONENT;
  // Prandtl number 0.7: viscosity from conductivity.
  const reynolds = ((p / (GAS_R * film)) * drop[DROP.slip] * diameter * FILM_CP) / (0.7 * k);
  const stirred = 1 + 0.27 * Math.sqrt(reynolds);
  drop[DROP.rate] = (12 * k * Math.log1p(B) * stirred) / (FILM_CP * LIQUID_DENSITY * diameter * diameter);
}

/** Mass fraction of fuel vapour at the surface of a drop [-]. */
function vapourFraction(liquid: LiquidFuel, T: number, p: number): number {
  const share = fuelVapourPressure(liquid, T) / p;
  if (!(share < 1)) return 1;
  // Moles to mass: the vapour is heavier by the ratio of gas constants.
  const heavy = (share * GAS_R) / liquid.R;
  return heavy / (heavy + 1 - share);
}
