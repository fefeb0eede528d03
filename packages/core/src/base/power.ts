/** Power of a turning shaft. */

/**
 * Power [kW] of a torque [N m] at a speed [1/min]: torque times angular speed.
 */
export function powerOf(torqueNm: number, rpm: number): number {
  return (torqueNm * rpm * Math.PI) / 30_000;
}

/** Torque [N m] of a power [kW] at a speed [1/min]. */
export function torqueOfPower(powerKw: number, rpm: number): number {
  return (powerKw * 30_000) / (Math.PI * rpm);
}
