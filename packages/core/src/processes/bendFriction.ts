/** What the bends of a tube take, as friction along it. */

/**
 * Dynamic pressures that a right angle takes beside the friction along its arc, a tube bent on one and a half of its diameters, at the Reynolds number of
 * exhaust gas: 0.17 at a million, and half as much again at 30 000 (Miller, Internal Flow Systems, 1978; from memory).
 */
export const RIGHT_ANGLE_LOSS = 0.25;

/**
 * Fanning friction factor [-] that along a whole tube takes what its bends do.
 *
 * @param bends - all of them together [deg]
 * @param area - [m2]
 * @param length - over which it is spread [m]
 */
export function bendFanning(bends: number, area: number, length: number): number {
  const loss = (RIGHT_ANGLE_LOSS * bends) / 90;
  return (loss * Math.sqrt((4 * area) / Math.PI)) / (4 * length);
}
