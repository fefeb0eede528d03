/** A made-up curve and a core that hands it out, for what a real forecast can't be asked to do. */
import type { Baseline, Combination, Curve, LostPoint, MarchedPoint } from '@valvetide/core';
import { CORE, type Core } from '../src/core.ts';
import { sampleInspection, sampleTrace, sampleValves } from './report/sampleEngine.ts';

export function samplePoint(rpm: number, change: Partial<MarchedPoint> = {}): MarchedPoint {
  // A parabola with its top at 5000 rpm; power follows from torque, hp = lb-ft x rpm / 5252.1.
  const torqueLbFt = 612 - ((rpm - 5000) / 1000) ** 2 * 12;
  const powerHp = (torqueLbFt * rpm) / 5252.113;
  return {
    status: 'settled',
    rpm,
    torqueNm: torqueLbFt * 1.3558179,
    powerKw: powerHp * 0.7456999,
    torqueLbFt,
    powerHp,
    volumetricEfficiency: 0.98,
    imepBar: 15.1,
    pmepBar: -0.4,
    fmepBar: 1.9,
    bmepBar: 12.8,
    peakPressureBar: 84.2,
    peakPressureDegAtdc: 14.3,
    manifoldPressureKpa: 98.1,
    manifoldVacuumInHg: 0.95,
    residualFraction: 0.031,
    chargeTemperatureK: 305,
    exhaustTemperatureK: 1050,
    bsfcGPerKwh: 268,
    airflowKgPerH: 1500,
    fuelKgPerH: 118,
    sparkDegBtdc: 33.5,
    ca50DegAtdc: 8.6,
    burnDurationDeg: 29.4,
    octaneRequired: 98,
    octaneAtBestTiming: 99,
    sparkGivenBackDeg: 0.5,
    torqueGivenBackPct: 0.1,
    detonates: false,
    meanPistonSpeedMs: (2 * 0.10795 * rpm) / 60,
    inletMachIndex: rpm / 12_000,
    heatLossFraction: 0.17,
    cycles: 14,
    massClosure: 2e-6,
    energyClosure: -3e-6,
    ...change,
  };
}

/** A speed without figures. */
export function lostPoint(rpm: number): LostPoint {
  const { meanPistonSpeedMs, inletMachIndex } = samplePoint(rpm);
  return {
    status: 'lost',
    rpm,
    meanPistonSpeedMs,
    inletMachIndex,
    cycles: 3,
    code: 'lost',
    reason: 'gas too fast to follow',
  };
}

export function sampleCurve(rpm: readonly number[], change: Partial<Curve> = {}): Curve {
  const points = rpm.map((speed) => samplePoint(speed));
  const torque = points.reduce((best, point) => (point.torqueNm > best.torqueNm ? point : best));
  const power = points.reduce((best, point) => (point.powerKw > best.powerKw ? point : best));
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: '0.1.0' },
    complete: true,
    combination: 'sample',
    fidelity: 'representative',
    correction: { standard: 'J607', factor: 1.0123 },
    points,
    peak: {
      torque: { rpm: torque.rpm, torqueNm: torque.torqueNm, torqueLbFt: torque.torqueLbFt },
      power: { rpm: power.rpm, powerKw: power.powerKw, powerHp: power.powerHp },
    },
    assumed: [
      { path: 'engine.rod', value: 6.385, unit: 'in', spread: 0.1, reason: '1.65 times the stroke' },
      { path: 'chamber.shape', value: 'wedge', unit: '', spread: null, reason: 'two valves and a dome' },
    ],
    warnings: [],
    ...change,
  };
}

/** Stands for a combination where the fake core never looks inside; a report asks for its fuel. */
const NOTHING = {
  units: 'trade',
  burn: { timing: { mode: 'knock-limited' } },
  fuel: { name: 'pump-93', researchOctane: 98, motorOctane: 88 },
} as Combination;

/** A forecast in `change` is the one that threads share, too. */
export function fakeCore(change: Partial<Core> = {}): Core {
  const core: Core = {
    ...CORE,
    readCombination: () => ({ ok: true, value: NOTHING }),
    pinBaseline: () => ({ ok: true, value: {} as Baseline }),
    forecastSpread: async () => null,
    combinationSchema: () => ({ title: 'Combination' }),
    forecast: (_combination, { rpm, onProgress }) => {
      const curve = sampleCurve(rpm);
      curve.points.forEach((point, i) => {
        onProgress?.(i + 1, rpm.length, point);
      });
      return curve;
    },
    inspectCombination: () => sampleInspection(),
    octaneIndex: () => 93,
    traceCycle: (_combination, rpm) => sampleTrace({ rpm }),
    valveUse: () => sampleValves(),
    ...change,
  };
  const onThreads: Core['forecastOn'] = async (_open, _workers, combination, options) =>
    core.forecast(combination, options);
  return { ...core, forecastOn: change.forecastOn ?? onThreads };
}
