/** Calibrations on invented forecasts that give back what was measured, whatever the combination: quick, and always a fit. */
import { brakeFactor, type CalibrationTarget, type DynoSheet } from '@valvetide/core';
import type { Core } from '../src/core.ts';
import { inventedRunner } from './studies.ts';

/** The core with forecasts of calibrations and back-tests replaced by the measured torque. */
export function measuringCore(core: Core): Core {
  return {
    ...core,
    calibrate: (baseline, target, options) =>
      core.calibrate(baseline, target, {
        ...options,
        run: inventedRunner((_, rpm) => aimedTorque(target, rpm)).run,
      }),
    backtest: (baseline, change, options) =>
      core.backtest(baseline, change, {
        ...options,
        run: inventedRunner((_, rpm) => torqueIn(change.before, rpm)).run,
      }),
  };
}

/** Torque of a sheet's first pull as observed on its day, straight between its speeds. */
function torqueIn({ pulls: [{ points, weather }], standard }: DynoSheet, rpm: number): number {
  const printed = between(
    points.map((point) => [point.rpm, point.torqueNm] as const),
    rpm,
  );
  if (weather === null) return printed;
  return printed / brakeFactor(standard, weather.pressure - weather.vapourPressure, weather.temperature);
}

/** Torque that meets the aims: straight between speeds, or a parabola with its top at the torque peak. */
function aimedTorque({ aims, factor }: CalibrationTarget, rpm: number): number {
  const torques = aims.filter(({ kind }) => kind === 'torque');
  if (torques.length > 0)
    return (
      between(
        torques.map((aim) => [aim.rpm, aim.measured] as const),
        rpm,
      ) / factor
    );
  const top = aims.find(({ kind }) => kind === 'torque peak');
  const power = aims.find(({ kind }) => kind === 'power peak');
  const peak = top?.measured ?? 500;
  const at = top?.rpm ?? 4000;
  const there = power === undefined ? 0.9 * peak : (power.measured * 30_000) / (Math.PI * power.rpm);
  const reach = (power?.rpm ?? at + 2000) - at;
  return (peak - ((peak - there) * (rpm - at) ** 2) / (reach * reach)) / factor;
}

function between(points: readonly (readonly [rpm: number, torqueNm: number])[], rpm: number): number {
  const after = Math.max(
    1,
    points.findIndex(([n]) => n >= rpm),
  );
  const [a, b] = [points[after - 1], points[after]];
  return a[1] + ((b[1] - a[1]) * (rpm - a[0])) / (b[0] - a[0]);
}
