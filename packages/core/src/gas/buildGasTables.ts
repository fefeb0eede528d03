/** Property tables of one fuel, mixture ratio and humidity, for the hot path. */
import { DomainError } from '../base/errors.ts';
import { burnedGas } from './burnedGas.ts';
import { tabulateEquilibrium } from './equilibriumTable.ts';
import { freshGas } from './freshGas.ts';
import type { Fuel } from './fuel.ts';
import type { GasTables } from './gasTables.ts';
import { type Mixture, mixtureS, mixtureU } from './mixture.ts';

/** First temperature of the one-dimensional tables [K]: where the coefficients begin. */
const T_MIN = 200;
/** Last temperature of the one-dimensional tables [K]. */
const T_MAX = 3500;
/** Temperature step of the one-dimensional tables [K]: linear interpolation errs by less than 2 J/kg. */
const DT = 5;

/**
 * Temperature below which burned gas keeps its composition [K].
 *
 * The usual choice for expansion in engines lies between 1500 and 1700 K (from memory). It is mild: of the 3 MJ/kg that
 * gasoline releases, frozen gas differs at 1600 K from gas at equilibrium by 0.7 kJ/kg at 5 bar and 3.5 kJ/kg at 0.3 bar at
 * the stoichiometric mixture, and by a tenth of that at a rich one.
 */
export const FREEZE_TEMPERATURE = 1600;

/** Pressure at which the frozen composition is taken [Pa]: that of the expansion stroke at the freezing temperature. */
export const FREEZE_PRESSURE = 20e5;

/** What the tables are of. */
export interface GasTableInput {
  readonly fuel: Fuel;
  /** Relative air-fuel ratio [-], 0.5 to 20. */
  readonly lambda: number;
  /** Partial pressure of water vapour in the air [Pa]. */
  readonly vapourPressure: number;
  /** Total pressure of the air [Pa]. */
  readonly pressure: number;
  /** [K], 1000 to 2500; rounded to a node of the tables. Default {@link FREEZE_TEMPERATURE}. */
  readonly freezeTemperature?: number;
}

/**
 * The tables of one fuel, mixture ratio and humidity.
 *
 * @throws {@link DomainError} naming the input out of range
 */
export function buildGasTables(input: GasTableInput): GasTables {
  const { fuel, lambda, vapourPressure, pressure, freezeTemperature = FREEZE_TEMPERATURE } = input;
  if (!(freezeTemperature >= 1000 && freezeTemperature <= 2500))
    throw new DomainError('freezeTemperature', freezeTemperature, 'in [1000, 2500] K');
  const frozenAt = T_MIN + DT * Math.round((freezeTemperature - T_MIN) / DT);
  const fresh = freshGas(fuel, lambda, pressure, vapourPressure);
  const frozen = burnedGas(fresh.gas.atoms, frozenAt, FREEZE_PRESSURE);
  return {
    tMin: T_MIN,
    dT: DT,
    count: (T_MAX - T_MIN) / DT + 1,
    freshR: fresh.gas.R,
    burnedR: frozen.R,
    freshU: tabulated(fresh.gas, mixtureU),
    burnedU: tabulated(frozen, mixtureU),
    freshS: tabulated(fresh.gas, mixtureS),
    burnedS: tabulated(frozen, mixtureS),
    freezeTemperature: frozenAt,
    equilibrium: tabulateEquilibrium(fresh.gas.atoms, frozen, frozenAt).table,
    fuelFraction: fresh.fuelFraction,
    dryAirFraction: fresh.dryAirFraction,
    lowerHeatingValue: fuel.lowerHeatingValue,
    latentHeat: fuel.latentHeat,
  };
}

/**
 * The same tables with fresh gas of which only a share of the fuel is vapour: what fills an intake whose fuel is partly liquid. Its
 * burned gas and all that belongs to the burn stay those of the whole mixture.
 *
 * @param vapourShare - [-], 0 to 1
 */
export function withLiquidFuel(tables: GasTables, input: GasTableInput, vapourShare: number): GasTables {
  const { fuel, lambda, vapourPressure, pressure } = input;
  const { gas, fuelFraction, dryAirFraction } = freshGas(fuel, lambda, pressure, vapourPressure, vapourShare);
  const [freshU, freshS] = [tabulated(gas, mixtureU), tabulated(gas, mixtureS)];
  return { ...tables, freshR: gas.R, freshU, freshS, fuelFraction, dryAirFraction };
}

function tabulated(gas: Mixture, property: (gas: Mixture, T: number) => number): Float64Array {
  return Float64Array.from({ length: (T_MAX - T_MIN) / DT + 1 }, (_, i) => property(gas, T_MIN + i * DT));
}
