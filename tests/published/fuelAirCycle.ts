/** The constant-volume fuel-air cycle, worked with the gas room alone. */
import { burnedGas } from '../../packages/core/src/gas/burnedGas.ts';
import { vapourHeatingValue } from '../../packages/core/src/gas/fuel.ts';
import { type Mixture, mixture, mixtureS, mixtureU } from '../../packages/core/src/gas/mixture.ts';
import { species } from '../../packages/core/src/gas/species.ts';
import {
  bisect,
  burnedOfEnergy,
  burnedOfEntropy,
  entropy,
  fromReference,
  simpleMixture,
} from './gasReference.ts';

export interface FuelAirCycle {
  readonly T: readonly number[];
  /** [bar], as the reference states them */
  readonly p: readonly number[];
  readonly efficiency: number;
  /** [bar] */
  readonly imep: number;
}

/**
 * Temperature at which the residual's composition froze [K]. The reference doesn't state its own; only rich mixtures
 * notice (equilibrium down to the start temperature moves their efficiency by 0.0004).
 */
const FROZEN_AT = 1600;

/** A kilogram of fresh gas with a share of its own products mixed in, by mass. */
function withResidual(fresh: Mixture, share: number, p: number): Mixture {
  if (share === 0) return fresh;
  const burned = burnedGas(fresh.atoms, FROZEN_AT, p);
  return mixture([
    { gas: fresh, moles: (1 - share) / fresh.molarMass },
    { gas: burned, moles: share / burned.molarMass },
  ]);
}

/** The constant-volume fuel-air cycle: nothing but the gas room and the two laws. */
export function fuelAirCycle(phi: number, r: number, T1: number, p1: number, residual: number): FuelAirCycle {
  const { gas: fresh, fuelFraction } = simpleMixture('iC8H18', phi);
  const start = fromReference(p1);
  const gas = withResidual(fresh, residual, start);
  const v1 = (gas.R * T1) / start;
  const v2 = v1 / r;
  // Frozen isentropic compression: s(T) - R ln p with p = R T / v.
  const s = (T: number, v: number): number => mixtureS(gas, T) - gas.R * Math.log(T / v);
  const T2 = bisect((T) => s(T, v2) - s(T1, v1), T1, 1500);
  const burned = burnedOfEnergy(gas.atoms, mixtureU(gas, T2), v2);
  const expanded = burnedOfEntropy(gas.atoms, entropy(burned), v1);
  const work =
    mixtureU(burned.gas, burned.T) -
    mixtureU(expanded.gas, expanded.T) -
    (mixtureU(gas, T2) - mixtureU(gas, T1));
  const heatingValue = vapourHeatingValue(mixture([{ gas: species('iC8H18'), moles: 1 }]));
  const toBar = p1 / start / 1e5;
  return {
    T: [T1, T2, burned.T, expanded.T],
    p: [start * toBar, ((gas.R * T2) / v2) * toBar, burned.p * toBar, expanded.p * toBar],
    efficiency: work / (fuelFraction * (1 - residual) * heatingValue),
    imep: (work / (v1 - v2)) * toBar,
  };
}
