/** Unknowns moved all at once, each up or down by chance. */
import { randomNamed } from '../numerics/random.ts';
import type { Offset } from './perturbed.ts';
import type { Unknown } from './unknown.ts';

/** Which way unknowns may go. */
export interface SignDraw {
  readonly seed: number;
  /** Name of the draw: other names give other signs. */
  readonly name: string | number;
  /** Whether the engine can be built with an unknown so many standard deviations off. */
  readonly isPossible: (unknown: Unknown, z: number) => boolean;
}

/**
 * Each unknown one standard deviation off. Its sign goes by its own name, so that it doesn't depend on which others there are; it is
 * the other one where only that can be built, and the unknown is left out where neither can.
 */
export function signedOffsets(
  unknowns: readonly Unknown[],
  { seed, name, isPossible }: SignDraw,
): readonly Offset[] {
  return unknowns.flatMap((unknown): Offset[] => {
    const sign = randomNamed(seed, `sign ${name} of ${unknown.id}`).uniform() < 0.5 ? -1 : 1;
    const z = [sign, -sign].find((way) => isPossible(unknown, way));
    return z === undefined ? [] : [{ unknown, z }];
  });
}
