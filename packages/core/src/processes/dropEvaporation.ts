/** How fast drops of fuel evaporate in the gas of a cylinder. */
import { STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { LIQUID_DENSITY, type LiquidFuel } from '../gas/liquidFuel.ts';
import { logOfOneMore } from '../numerics/expAndLogNearZero.ts';

/** Specific gas constant of the gas around the drops, air and burned gas alike [J/(kg K)]. */
const GAS_R = 288;
/** Specific heat of the film around a drop [J/(kg K)]. */
const FILM_CP = 1100;
/** Conductivity of air [W/(m K)] at 300 K, and the power of temperature it rises with. */
const CONDUCTIVITY = 0.026;
const CONDUCTIVITY_EXPONENT = 0.8;
/** Prandtl number of the gas, and how much slip adds by Ranz and Marshall at it: 0.3 Pr^(1/3). */
const PRANDTL = 0.7;
const STIRRING = 0.3 * Math.cbrt(PRANDTL);
/** Newton's steps at most in the search for the drop's own temperature; the last may be this share of what it is colder than the gas [-]. */
const MOST_STEPS = 12;
const CLOSE = 1e-3;
/** Coldest drop that is looked for [K]. */
const COLDEST = 220;
const PER_ATMOSPHERE = 1 / STANDARD_ATMOSPHERE;

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
  if (!(T > COLDEST)) return;
  // Heat and vapour balance where Ys = (Y + B) / (1 + B). By the law of the vapour's pressure that Ys belongs to a temperature which
  // hardly changes with the one that B was worked out for: Newton's method on where the two are the same.
  const perBoiling = 1 / liquid.boilingPoint;
  const perRise = liquid.R / liquid.latentHeat;
  const heavy = GAS_R / liquid.R;
  // In gas full of vapour it is as warm as the gas.
  const there = vapour / (vapour + heavy * (1 - vapour));
  const dew = 1 / (perBoiling - perRise * Math.log(there * p * PER_ATMOSPHERE));
  if (T <= liquid.boilingPoint && !(dew < T)) return;
  let Ts = 0.5 * (COLDEST + Math.min(T, liquid.boilingPoint));
  for (let i = 0; i < MOST_STEPS; i++) {
    const B = (FILM_CP * (T - Ts)) / liquid.latentHeat;
    const surface = (vapour + B) / (1 + B);
    const share = surface / (surface + heavy * (1 - surface));
    const balanced = 1 / (perBoiling - perRise * Math.log(share * p * PER_ATMOSPHERE));
    // d ln(share) / dTs
    const slope =
      ((-FILM_CP / liquid.latentHeat) * (1 - vapour) * heavy * share) /
      (surface * surface * (1 + B) * (1 + B));
    const step = (balanced - Ts) / (1 - balanced * balanced * perRise * slope);
    // Short of the gas's own temperature, where nothing evaporates.
    Ts = Math.max(COLDEST, Math.min(liquid.boilingPoint, Ts + step < T ? Ts + step : 0.5 * (Ts + T)));
    if (Math.abs(step) < CLOSE * (T - Ts)) break;
  }
  const B = (FILM_CP * (T - Ts)) / liquid.latentHeat;
  const film = 0.5 * (T + Ts);
  const k = CONDUCTIVITY * (film / 300) ** CONDUCTIVITY_EXPONENT;
  // Viscosity from conductivity.
  const reynolds = ((p / (GAS_R * film)) * drop[DROP.slip] * diameter * FILM_CP) / (PRANDTL * k);
  const stirred = 1 + STIRRING * Math.sqrt(reynolds);
  drop[DROP.rate] = (12 * k * logOfOneMore(B) * stirred) / (FILM_CP * LIQUID_DENSITY * diameter * diameter);
}
