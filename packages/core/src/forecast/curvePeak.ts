/** Where a curve is highest. */
import type { CurvePeak, MarchedPoint } from './curve.ts';

/** Highest torque and power; null without a point. */
export function peakOf([first, ...others]: readonly MarchedPoint[]): CurvePeak | null {
  if (first === undefined) return null;
  const torque = others.reduce((best, p) => (p.torqueNm > best.torqueNm ? p : best), first);
  const power = others.reduce((best, p) => (p.powerKw > best.powerKw ? p : best), first);
  return {
    torque: { rpm: torque.rpm, torqueNm: torque.torqueNm, torqueLbFt: torque.torqueLbFt },
    power: { rpm: power.rpm, powerKw: power.powerKw, powerHp: power.powerHp },
  };
}
