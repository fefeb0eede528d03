/** Standard normal deviates, the same for whoever asks by the same name. */

import { randomNamed } from '../numerics/random.ts';

/** Standard normal deviates of an unknown or of another source of error, by its name: one entry a draw. */
export type Deviates = (id: string) => Float64Array;

/** Deviates that are drawn when they are first asked for, and kept. */
export function deviatesOf(seed: number, draws: number = DRAWS): Deviates {
  const drawn = new Map<string, Float64Array>();
  return (id) => {
    const known = drawn.get(id);
    if (known !== undefined) return known;
    const { normal } = randomNamed(seed, id);
    const z = Float64Array.from({ length: draws }, normal);
    drawn.set(id, z);
    return z;
  };
}

/** Enough that their own scatter moves a standard deviation by 1 % and a chance by 1 % at most. */
export const DRAWS = 6000;
