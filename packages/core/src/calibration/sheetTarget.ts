/** A dyno sheet as what a calibration is held to. */

import type { DynoSheet } from '../dyno/dynoSheet.ts';
import { pooledRepeatability } from '../dyno/pullComparison.ts';
import { pullMean, smoothTorque } from '../dyno/pullMean.ts';
import type { Pull } from '../dyno/readPull.ts';
import { scaledPull } from '../dyno/scaledPull.ts';
import { pacesOf } from '../dyno/steadySheet.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';
import { type Aim, type CalibrationTarget, MODEL_ERROR } from './calibrationTarget.ts';
import { dayOf } from './dayOfPulls.ts';

/** Speeds nearer than this share their model error [1/min]: a hole or a hump is as wide. */
export const ERROR_REACH = 500;
/** Most speeds a fit looks at, and how near they may be [1/min]. */
export const MOST_SPEEDS = 9;
export const LEAST_STEP = 250;

/**
 * A dyno sheet as a target: the mean of its pulls at no more than nine speeds, weighted by what the pulls repeat to and
 * by the error a forecast keeps. The forecast is made in the mean air of the pulls.
 *
 * @example
 * ```ts
 * const fitted = await calibrate(baseline, sheetTarget(sheet));
 * ```
 */
export function sheetTarget(sheet: DynoSheet): CalibrationTarget {
  const mean = pullMean(inOneAir(sheet));
  const { deviation, assumed } = pooledRepeatability([mean]);
  const rpm = fitSpeeds(mean.points.map((point) => point.rpm));
  const step = rpm.length > 1 ? (rpm[rpm.length - 1] - rpm[0]) / (rpm.length - 1) : ERROR_REACH;
  const model = MODEL_ERROR * Math.sqrt(Math.max(1, ERROR_REACH / step));
  const sigma = Math.hypot(deviation / Math.sqrt(mean.pulls), model);
  const aims = rpm.flatMap((n): Aim[] => {
    const measured = smoothTorque(mean.points, n, step / 2);
    return measured === null ? [] : [{ kind: 'torque', rpm: n, measured, sigma: sigma * measured }];
  });
  const air = dayOf(sheet.pulls, sheet.standard);
  return {
    names: [sheet.name],
    standard: sheet.standard,
    ...(sheet.atWheels === true ? { atWheels: true as const } : {}),
    ...air,
    paces: pacesOf(sheet.pulls, sheet.standard),
    rpm: aims.map((aim) => aim.rpm),
    aims,
    repeatability: { deviation, assumed, pulls: mean.pulls },
    modelError: MODEL_ERROR,
    notes: sheet.notes,
  };
}

/**
 * Pulls whose figures compare with each other. Corrected figures do; observed ones of several days are taken to their
 * mean air by the formula of SAE J1349, since weather is no scatter of the dyno.
 */
export function inOneAir({ pulls, standard }: DynoSheet): readonly Pull[] {
  const { weather } = dayOf(pulls, standard);
  if (standard !== 'none' || weather === null) return pulls;
  const inMean = brakeFactorIn('J1349', weather);
  return pulls.map((pull) =>
    pull.weather === null ? pull : scaledPull(pull, brakeFactorIn('J1349', pull.weather) / inMean),
  );
}

/** No more than nine of the measured speeds, spread evenly, none nearer to the next than 250 rpm where that can be. */
export function fitSpeeds(speeds: readonly number[]): number[] {
  const from = speeds[0];
  const to = speeds[speeds.length - 1];
  const count = Math.max(2, Math.min(MOST_SPEEDS, Math.floor((to - from) / LEAST_STEP) + 1));
  const step = (to - from) / (count - 1);
  const wanted = Array.from({ length: count }, (_, i) => from + i * step);
  const chosen = wanted.map((rpm) =>
    speeds.reduce((best, n) => (Math.abs(n - rpm) < Math.abs(best - rpm) ? n : best)),
  );
  return [...new Set(chosen)].sort((a, b) => a - b);
}
