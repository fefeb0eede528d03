/** The gas as the hot path sees it: property tables over temperature (and pressure where burned gas dissociates). */

/**
 * Property tables of one fuel, mixture ratio and humidity.
 *
 * Two gases are mixed by mass everywhere in the network: **fresh** (humid air with fuel vapour) and
 * **burned** (its combustion products). Energies include the enthalpy of formation at 298.15 K, so that
 * burning is nothing but fresh gas becoming burned gas at constant energy.
 *
 * The one-dimensional tables hold values at `T = tMin + i * dT`, `i = 0 … count - 1`, and are meant for
 * linear interpolation. Burned gas has composition frozen at `freezeTemperature` in the one-dimensional
 * tables, at every temperature; `equilibrium` holds its properties at chemical equilibrium above
 * `freezeTemperature` and is continuous with the frozen tables there.
 */
export interface GasTables {
  /** First temperature of the tables [K]. */
  readonly tMin: number;
  /** Temperature step of the tables [K]. */
  readonly dT: number;
  /** Number of entries in each one-dimensional table. */
  readonly count: number;
  /** Gas constant of fresh gas [J/(kg K)]. */
  readonly freshR: number;
  /** Gas constant of frozen burned gas [J/(kg K)]. */
  readonly burnedR: number;
  /** Internal energy of fresh gas [J/kg]. */
  readonly freshU: Float64Array;
  /** Internal energy of frozen burned gas [J/kg]. */
  readonly burnedU: Float64Array;
  /** Temperature part of the entropy of fresh gas [J/(kg K)]: s(T, p) = freshS(T) - freshR ln(p / 1 bar). */
  readonly freshS: Float64Array;
  /** Temperature part of the entropy of frozen burned gas [J/(kg K)], likewise. */
  readonly burnedS: Float64Array;
  /** Temperature below which burned gas keeps the composition it had there [K]. */
  readonly freezeTemperature: number;
  readonly equilibrium: EquilibriumTable;
  /** Mass of fuel in a kilogram of fresh gas [-]. */
  readonly fuelFraction: number;
  /** Mass of dry air in a kilogram of fresh gas [-]. */
  readonly dryAirFraction: number;
  /** Heat released at 298.15 K by complete combustion of a kilogram of fuel, liquid or as stated [J/kg]. */
  readonly lowerHeatingValue: number;
  /** Latent heat of the fuel [J/kg of fuel]. */
  readonly latentHeat: number;
}

/**
 * Burned gas at equilibrium, on a grid regular in T and in ln(p): entry `it * pressureCount + ip` is at
 * `T = tMin + it * dT` and `p = exp(lnPMin + ip * dLnP)` [Pa]. Meant for bilinear interpolation.
 */
export interface EquilibriumTable {
  readonly tMin: number;
  readonly dT: number;
  readonly temperatureCount: number;
  readonly lnPMin: number;
  readonly dLnP: number;
  readonly pressureCount: number;
  /** Internal energy [J/kg]. */
  readonly u: Float64Array;
  /** Gas constant [J/(kg K)]. */
  readonly R: Float64Array;
}
