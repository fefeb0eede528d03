/** Draws of an unknown that can't be off any way. */

/** How far an unknown can be off, from zero or below to zero or above [standard deviations]. */
export type Reach = readonly [number, number];

/** A draw beyond the reach is held at its end. */
export function heldWithin(reach: Reach | undefined, z: number): number {
  return reach === undefined ? z : Math.min(reach[1], Math.max(reach[0], z));
}
