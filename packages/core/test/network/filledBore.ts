/** A jet that fills a wider bore by its momentum and is lost in still gas behind it: closed form of an ideal gas, gamma 1.4. */
import { findRoot } from '../../src/numerics/root.ts';

const GAMMA = 1.4;

export interface FilledBore {
  /** Pressure behind the bore over that of the still gas in front [-]. */
  readonly behind: number;
  /** Mass flow over throat area, times the root of gas constant and temperature, over the pressure in front [-]. */
  readonly flow: number;
}

/**
 * By the pressure in the throat over that in front, at most as low as sonic flow has it, and throat over bore area. At the wall where the jet leaves
 * the throat stands the throat's pressure (Borda and Carnot); from there to the filled bore momentum, mass and energy are kept.
 */
export function filledBore(throat: number, share: number): FilledBore {
  const still = (mach: number): number => 1 + 0.5 * (GAMMA - 1) * mach * mach;
  const mach = Math.sqrt((2 / (GAMMA - 1)) * (throat ** (-(GAMMA - 1) / GAMMA) - 1));
  const flowAt = (p: number, m: number): number => p * m * Math.sqrt(GAMMA * still(m));
  const flow = flowAt(throat, mach);
  const force = throat * (1 + share * GAMMA * mach * mach);
  const pressure = (m: number): number => force / (1 + GAMMA * m * m);
  const over = (m: number): number => flowAt(pressure(m), m) - share * flow;
  return { behind: pressure(findRoot(over, 0, 1, { tolerance: 1e-12 }).x), flow };
}

/** Share of the throat's drop that is lost so, of gas that is not compressed [-]: what the shock of the jet takes, and the speed in the bore. */
export function bordaLost(share: number): number {
  return (1 - share) ** 2 + share ** 2;
}
