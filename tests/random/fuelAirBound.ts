/** What no engine of a compression ratio and mixture can turn into work: the constant-volume fuel-air cycle of its own fresh gas. */
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { freshGas } from '../../packages/core/src/gas/freshGas.ts';
import { mixtureS, mixtureU } from '../../packages/core/src/gas/mixture.ts';
import { bisect, burnedOfEnergy, burnedOfEntropy, entropy } from '../published/gasReference.ts';

/** A cold start gives more of the heat as work; charges are warmer than this [K], and pressures nearer to 1 bar than matters. */
const START = { T: 290, p: 1e5 };

/** Indicated efficiency of the fuel-air cycle without residual, heat or pumping [-]. */
export function fuelAirBound({ fuel, lambda, weather, chamber }: Combination): number {
  const { gas, fuelFraction } = freshGas(fuel, lambda, weather.pressure, weather.vapourPressure);
  const v1 = (gas.R * START.T) / START.p;
  const v2 = v1 / chamber.compressionRatio;
  const s = (T: number, v: number): number => mixtureS(gas, T) - gas.R * Math.log(T / v);
  const T2 = bisect((T) => s(T, v2) - s(START.T, v1), START.T, 2000);
  const burned = burnedOfEnergy(gas.atoms, mixtureU(gas, T2), v2);
  const expanded = burnedOfEntropy(gas.atoms, entropy(burned), v1);
  const work =
    mixtureU(burned.gas, burned.T) -
    mixtureU(expanded.gas, expanded.T) -
    (mixtureU(gas, T2) - mixtureU(gas, START.T));
  return work / (fuelFraction * fuel.lowerHeatingValue);
}
