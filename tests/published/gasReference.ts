/** What the published gas calculations assume: simple air, and entropies that refer to 1 atm. */
import type { AtomCounts } from '../../packages/core/src/gas/atoms.ts';
import { burnedGas } from '../../packages/core/src/gas/burnedGas.ts';
import { type Mixture, mixture, mixtureS, mixtureU } from '../../packages/core/src/gas/mixture.ts';
import { species } from '../../packages/core/src/gas/species.ts';

/**
 * Pressure at which our gas stands where the reference's stands at `p` [Pa].
 *
 * The coefficients' entropies refer to 1 bar (NASA TM-4513; the test of species entropies shows it), the reference
 * calculations took them to refer to 1 atm. Only the ratio of the pressure to that standard enters, so that the reference's
 * state at p is ours at p / 1.01325. Ratios of pressures are the same in both.
 */
export const fromReference = (p: number): number => p / 1.01325;

/** Pressure of ours that stands for 1 atm of the reference [Pa]. */
export const ATMOSPHERE: number = fromReference(101_325);

/** Fresh gas of one fuel in O2 + 3.76 N2. */
export function simpleMixture(
  fuel: string,
  phi: number,
): { gas: Mixture; fuelFraction: number; airFuelRatio: number } {
  return blendedMixture({ [fuel]: 1 }, phi);
}

/** The same for a fuel of several species, by moles. */
export function blendedMixture(
  fuel: Readonly<Record<string, number>>,
  phi: number,
): { gas: Mixture; fuelFraction: number; airFuelRatio: number } {
  const vapour = mixture(Object.entries(fuel).map(([name, moles]) => ({ gas: species(name), moles })));
  const oxygen = (vapour.atoms.C + vapour.atoms.H / 4 - vapour.atoms.O / 2) / phi;
  const gas = mixture([
    { gas: vapour, moles: 1 },
    { gas: species('O2'), moles: oxygen },
    { gas: species('N2'), moles: 3.76 * oxygen },
  ]);
  const airMass = oxygen * (species('O2').molarMass + 3.76 * species('N2').molarMass);
  const airFuelRatio = airMass / vapour.molarMass;
  return { gas, fuelFraction: 1 / (1 + airFuelRatio), airFuelRatio };
}

/** The root of a rising function between two bounds. */
export function bisect(f: (x: number) => number, low: number, high: number): number {
  if (!(f(low) <= 0 && f(high) >= 0)) throw new Error(`no root between ${low} and ${high}`);
  let a = low;
  let b = high;
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (a + b);
    if (f(middle) < 0) a = middle;
    else b = middle;
  }
  return 0.5 * (a + b);
}

/** A state of burned gas at equilibrium. */
export interface BurnedState {
  readonly T: number;
  readonly p: number;
  readonly gas: Mixture;
}

/** Burned gas at equilibrium in a given specific volume [m3/kg]. */
export function burnedAtVolume(atoms: AtomCounts, T: number, v: number): BurnedState {
  let p = (burnedGas(atoms, T, 1e6).R * T) / v;
  let gas = burnedGas(atoms, T, p);
  for (let i = 0; i < 12; i++) {
    p = (gas.R * T) / v;
    gas = burnedGas(atoms, T, p);
  }
  return { T, p, gas };
}

/** Burned gas of internal energy `u` [J/kg] in a specific volume. */
export function burnedOfEnergy(atoms: AtomCounts, u: number, v: number): BurnedState {
  const T = bisect((t) => mixtureU(burnedAtVolume(atoms, t, v).gas, t) - u, 1000, 4000);
  return burnedAtVolume(atoms, T, v);
}

/** Burned gas of entropy `s` [J/(kg K)] in a specific volume. */
export function burnedOfEntropy(atoms: AtomCounts, s: number, v: number): BurnedState {
  const T = bisect((t) => entropy(burnedAtVolume(atoms, t, v)) - s, 700, 4000);
  return burnedAtVolume(atoms, T, v);
}

/** Entropy of a state [J/(kg K)]. */
export function entropy(state: BurnedState): number {
  return mixtureS(state.gas, state.T) - state.gas.R * Math.log(state.p / 1e5);
}
