/** What stands for a speed whose march lost itself, even in shortened steps. */
import type { Combination } from '../combination/combination.ts';
import type { OperatingPoint } from './curve.ts';

/** What is known of a speed without its cycle. */
export type WithoutCycle = Pick<OperatingPoint, 'rpm' | 'meanPistonSpeedMs' | 'inletMachIndex' | 'cycles'>;

/** No work and no flow, gas as it is outside, nothing closed: numbers all, and `lost` says that they mean nothing. */
export function lostPoint({ weather }: Combination, known: WithoutCycle): OperatingPoint {
  return {
    torqueNm: 0,
    powerKw: 0,
    torqueLbFt: 0,
    powerHp: 0,
    volumetricEfficiency: 0,
    imepBar: 0,
    pmepBar: 0,
    fmepBar: 0,
    bmepBar: 0,
    peakPressureBar: 0,
    peakPressureDegAtdc: 0,
    manifoldPressureKpa: weather.pressure / 1000,
    manifoldVacuumInHg: 0,
    residualFraction: 0,
    chargeTemperatureK: weather.temperature,
    exhaustTemperatureK: weather.temperature,
    bsfcGPerKwh: 0,
    airflowKgPerH: 0,
    fuelKgPerH: 0,
    sparkDegBtdc: 0,
    ca50DegAtdc: 0,
    burnDurationDeg: 0,
    octaneRequired: 0,
    octaneAtBestTiming: 0,
    sparkGivenBackDeg: 0,
    torqueGivenBackPct: 0,
    detonates: false,
    heatLossFraction: 0,
    converged: false,
    lost: true,
    massClosure: 1,
    energyClosure: 1,
    ...known,
  };
}

/** Whether every figure of a curve is one of a march. */
export function isWhole({ points }: { readonly points: readonly Pick<OperatingPoint, 'lost'>[] }): boolean {
  return points.every(({ lost }) => !lost);
}
