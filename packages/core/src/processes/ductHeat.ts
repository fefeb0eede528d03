/** Heat between the walls of runners, ports and primaries and the gas that pulses through them. */

import { PRANDTL } from './viscosity.ts';

/**
 * Stanton number [-] of an engine's intake and exhaust: Nu = 0.07 Re^(3/4), fitted to measurements of many authors with a correlation
 * of 0.85 (intake) and 0.80 (exhaust). Pulsating flow through bends takes up 1.5 to 3 times the heat of a steady one.
 *
 * @param reynolds - of speed and diameter [-]
 * @see Depcik and Assanis, SAE 2002-01-0372
 */
export function ductStanton(reynolds: number): number {
  return (0.07 * reynolds ** -0.25) / PRANDTL;
}
