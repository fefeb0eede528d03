/** Adiabatic flames in O2 + 3.76 N2, worked with the gas room alone. */
import { burnedGas } from '../../packages/core/src/gas/burnedGas.ts';
import { vapourHeatingValue } from '../../packages/core/src/gas/fuel.ts';
import { mixture, mixtureH, mixtureU } from '../../packages/core/src/gas/mixture.ts';
import { species } from '../../packages/core/src/gas/species.ts';
import { bisect, burnedOfEnergy, simpleMixture } from './gasReference.ts';

export function constantPressureFlame(fuel: string, phi: number, p: number): number {
  const { gas } = simpleMixture(fuel, phi);
  const h = mixtureH(gas, 298.15);
  return bisect((T) => mixtureH(burnedGas(gas.atoms, T, p), T) - h, 1000, 4000);
}

export function constantVolumeFlame(
  fuel: string,
  phi: number,
  T: number,
  p: number,
): { T: number; pressureRatio: number } {
  const { gas } = simpleMixture(fuel, phi);
  const burned = burnedOfEnergy(gas.atoms, mixtureU(gas, T), (gas.R * T) / p);
  return { T: burned.T, pressureRatio: burned.p / p };
}

/** Lower heating value of a vapour [J/kg]. */
export function heatingValueOf(fuel: string): number {
  return vapourHeatingValue(mixture([{ gas: species(fuel), moles: 1 }]));
}
