/** Power of a turning shaft. */

/**
 * Power [kW] of a torque [N m] at a speed [1/min]: torque times angular speed.
 */
export function powerOf(torqueNm: number, rpm: number): number {
  return (torqueNm * rpm * Math.PI) / 30_000;
}
