/** Peak figures as what a calibration is held to. */

import { DomainError } from '../base/errors.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import { MODEL_ERRORS } from '../forecast/modelError.ts';
import { type Aim, type CalibrationTarget, MODEL_ERROR } from './calibrationTarget.ts';
import { dayOf } from './dayOfPulls.ts';

/** One standard deviation of a peak figure from one pull [-], and of the speed of a peak [1/min]: tops are flat. */
export const PEAK_ERROR = 0.01;
export const PEAK_SPEED_ERROR = 200;
/** Steps between the forecasts around peaks [1/min]. */
export const PEAK_STEP = 500;

/** Peak figures alone, as an advertisement or a memory gives them; speeds null where not known. */
export interface PeakFigures {
  /** Highest torque [N m] and its speed [1/min]; null where not known. */
  readonly torque: { readonly torqueNm: number; readonly rpm: number | null } | null;
  /** Highest power [kW] and its speed [1/min]; null where not known. */
  readonly power: { readonly powerKw: number; readonly rpm: number | null } | null;
  /** Correction standard that the figures are shown by. */
  readonly standard: CorrectionStandard;
  /** The figures are those at the driven wheels; absent: at the engine. */
  readonly atWheels?: true;
}

/**
 * Peak figures as a target. Their speeds, where known, count too, each to 200 rpm beside the model's own error. `band` are the speeds the engine is
 * likely to be run over, for peaks without a speed.
 *
 * @throws {@link DomainError} without any figure, or with impossible ones
 *
 * @example
 * ```ts
 * const torque = { torqueNm: 511, rpm: 3800 };
 * const power = { powerKw: 251, rpm: 5300 };
 * const target = peakTarget({ torque, power, standard: 'J607' }, { fromRpm: 2500, toRpm: 6000 });
 * ```
 */
export function peakTarget(
  { torque, power, standard, atWheels }: PeakFigures,
  band: { readonly fromRpm: number; readonly toRpm: number },
): CalibrationTarget {
  if (torque === null && power === null)
    throw new DomainError('peaks', 'none', 'a torque peak, a power peak or both');
  if (torque !== null && !(torque.torqueNm > 0))
    throw new DomainError('torqueNm', torque.torqueNm, 'positive N m');
  if (power !== null && !(power.powerKw > 0)) throw new DomainError('powerKw', power.powerKw, 'positive kW');
  const low = torque?.rpm ?? (power?.rpm ? 0.6 * power.rpm : band.fromRpm);
  const high = power?.rpm ?? (torque?.rpm ? 1.5 * torque.rpm : band.toRpm);
  if (!(high > low))
    throw new DomainError('power peak', `${high} rpm`, `above the torque peak at ${low} rpm`);
  const sigma = Math.hypot(MODEL_ERROR, PEAK_ERROR);
  const peak = (kind: Aim['kind'], rpm: number, measured: number): Aim => ({
    kind,
    rpm,
    measured,
    sigma: sigma * measured,
  });
  const { torqueSpeed, powerSpeed } = MODEL_ERRORS.sheets;
  const speed = (kind: Aim['kind'], rpm: number | null, error: number): Aim[] =>
    rpm === null ? [] : [{ kind, rpm, measured: rpm, sigma: Math.hypot(PEAK_SPEED_ERROR, error) }];
  const aims = [
    ...(torque === null
      ? []
      : [
          peak('torque peak', torque.rpm ?? low, torque.torqueNm),
          ...speed('torque peak speed', torque.rpm, torqueSpeed),
        ]),
    ...(power === null
      ? []
      : [
          peak('power peak', power.rpm ?? high, power.powerKw),
          ...speed('power peak speed', power.rpm, powerSpeed),
        ]),
  ];
  const from = Math.max(500, Math.round((low - 2 * PEAK_STEP) / PEAK_STEP) * PEAK_STEP);
  const to = Math.round((high + 2 * PEAK_STEP) / PEAK_STEP) * PEAK_STEP;
  const count = Math.min(12, Math.round((to - from) / PEAK_STEP));
  const rpm = Array.from({ length: count + 1 }, (_, i) => Math.round(from + ((to - from) * i) / count));
  const reference = dayOf([], standard);
  return {
    names: ['peak figures'],
    standard,
    ...(atWheels === true ? { atWheels } : {}),
    ...reference,
    paces: [{ rate: null, factor: reference.factor }],
    rpm,
    aims,
    repeatability: { deviation: PEAK_ERROR, assumed: true, pulls: 1 },
    modelError: MODEL_ERROR,
    notes: [],
  };
}
