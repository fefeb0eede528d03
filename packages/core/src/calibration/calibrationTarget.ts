/** What a calibration is held to: the speeds to forecast, and how far a forecast is from what was measured. */

import { DomainError } from '../base/errors.ts';
import { powerOf } from '../base/power.ts';
import type { CorrectionStandard, Weather } from '../combination/running.ts';
import type { DynoSheet } from '../dyno/dynoSheet.ts';
import { pooledRepeatability } from '../dyno/pullComparison.ts';
import { pullMean, smoothTorque } from '../dyno/pullMean.ts';
import type { Pull } from '../dyno/readPull.ts';
import { airOfPull } from '../dyno/recorrectSheet.ts';
import { scaledPull } from '../dyno/scaledPull.ts';
import { type HeldBack, type PullPace, pacesOf } from '../dyno/steadySheet.ts';
import type { Curve } from '../forecast/curve.ts';
import { MODEL_ERRORS } from '../forecast/modelError.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';
import { marchedPoints } from '../forecast/wholeCurve.ts';
import { topOf } from '../numerics/topOf.ts';

/** Error a forecast keeps whatever its knobs, at one speed, one standard deviation [-]; see the theory page. */
export const MODEL_ERROR = 0.015;
/** Speeds nearer than this share their model error [1/min]: a hole or a hump is as wide. */
const ERROR_REACH = 500;
/** Most speeds a fit looks at, and how near they may be [1/min]. */
const MOST_SPEEDS = 9;
const LEAST_STEP = 250;
/** One standard deviation of a peak figure from one pull [-], and of the speed of a peak [1/min]: tops are flat. */
const PEAK_ERROR = 0.01;
const PEAK_SPEED_ERROR = 200;
/** Steps between two points of a curve in the mean that gives its top. */
const TOP_STEPS = 10;
/** How near the top a speed must stand to count as the peak: what one pull scatters by [-]. */
const TOP = 0.01;
/** Steps between the forecasts around peaks [1/min]. */
const PEAK_STEP = 500;

/** Something measured, beside what a curve gives for it. */
export interface Aim {
  /** `torque` at a speed; `torque peak`, `power peak` and their speeds where only those are known. */
  readonly kind: 'torque' | 'torque peak' | 'torque peak speed' | 'power peak' | 'power peak speed';
  /** Speed it was measured at, or is looked for around [1/min]. */
  readonly rpm: number;
  /** [N m], [kW] or [1/min]; torque and power under the sheet's standard. */
  readonly measured: number;
  /** One standard deviation of measured less forecast, model error included; unit of `measured`. */
  readonly sigma: number;
}

/** The aims of a fit and the air they hold for. */
export interface CalibrationTarget {
  /** Names of the sheets. */
  readonly names: readonly string[];
  /** Correction standard that the figures are shown by. */
  readonly standard: CorrectionStandard;
  /** The figures are those at the driven wheels; absent: at the engine. */
  readonly atWheels?: true;
  /** Air to forecast in; null: that of the combination. */
  readonly weather: Weather | null;
  /** Forecast as observed in that air, times this, is what the aims show [-]. */
  readonly factor: number;
  /** How fast each pull behind the aims went; absent: nothing is known of it. */
  readonly paces?: readonly PullPace[];
  /** What was added to the aims to bring them to steady running; absent: nothing yet. */
  readonly heldBack?: HeldBack;
  /** Speeds to forecast, rising [1/min]. */
  readonly rpm: readonly number[];
  /** What was measured. */
  readonly aims: readonly Aim[];
  /** One standard deviation of a pull [-], whether it was assumed, and how many pulls there are. */
  readonly repeatability: { readonly deviation: number; readonly assumed: boolean; readonly pulls: number };
  /** Error a forecast keeps whatever its knobs, one standard deviation [-]. */
  readonly modelError: number;
  /** What was repaired or taken for granted, for people. */
  readonly notes: readonly string[];
}

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

/**
 * Air to forecast the mean of pulls in, and the factor from there to their printed figures.
 *
 * It is the mean of the pulls' own airs: torque and factor are so nearly straight over the weather of a dyno room that the
 * mean of forecasts in each air is the forecast in the mean air (within 0.05 % for 4 % between the days). A pull without
 * weather stands in the reference air of its standard; observed figures without weather in the air of the others.
 */
export function dayOf(
  pulls: readonly Pull[],
  standard: CorrectionStandard,
): { readonly weather: Weather | null; readonly factor: number } {
  const none: Pull = { name: '', weather: null, points: [] };
  const airs = (pulls.length > 0 ? pulls : [none]).flatMap((pull) => airOfPull(pull, standard) ?? []);
  if (airs.length === 0) return { weather: null, factor: 1 };
  const mean = (key: keyof Weather): number => airs.reduce((sum, air) => sum + air[key], 0) / airs.length;
  const weather = {
    pressure: mean('pressure'),
    temperature: mean('temperature'),
    vapourPressure: mean('vapourPressure'),
  };
  return { weather, factor: brakeFactorIn(standard, weather) };
}

/**
 * Pulls whose figures compare with each other. Corrected figures do; observed ones of several days are taken to their
 * mean air by the formula of SAE J1349, since weather is no scatter of the dyno.
 */
function inOneAir({ pulls, standard }: DynoSheet): readonly Pull[] {
  const { weather } = dayOf(pulls, standard);
  if (standard !== 'none' || weather === null) return pulls;
  const inMean = brakeFactorIn('J1349', weather);
  return pulls.map((pull) =>
    pull.weather === null ? pull : scaledPull(pull, brakeFactorIn('J1349', pull.weather) / inMean),
  );
}

/** The target without some of its speeds, and without what was measured at them. */
export function withoutSpeeds(target: CalibrationTarget, gone: readonly number[]): CalibrationTarget {
  if (gone.length === 0) return target;
  return {
    ...target,
    rpm: target.rpm.filter((n) => !gone.includes(n)),
    aims: target.aims.filter(({ kind, rpm }) => kind !== 'torque' || !gone.includes(rpm)),
  };
}

/**
 * What a curve, forecast as observed, gives for each aim on a dyno that shows `reads` times what there is; the curve may
 * have more speeds than the target.
 */
export function forecastOf(target: CalibrationTarget, curve: Curve, reads: number = 1): readonly number[] {
  const points = marchedPoints(curve)
    .filter(({ rpm }) => target.rpm.includes(rpm))
    .map(({ rpm, torqueNm }) => ({ rpm, torqueNm: target.factor * reads * torqueNm }));
  const torques = points.map((p) => ({ rpm: p.rpm, value: p.torqueNm }));
  const powers = points.map((p) => ({ rpm: p.rpm, value: powerOf(p.torqueNm, p.rpm) }));
  const aimed = ({ kind, rpm }: Aim): number => {
    switch (kind) {
      case 'torque':
        return points.find((point) => point.rpm === rpm)?.torqueNm ?? Number.NaN;
      case 'torque peak':
        return topValue(torques);
      case 'torque peak speed':
        return topSpeed(torques);
      case 'power peak':
        return topValue(powers);
      case 'power peak speed':
        return topSpeed(powers);
    }
  };
  return target.aims.map(aimed);
}

/**
 * Where the top of a curve stands: the mean speed under exp((value / top - 1) / 1 %), straight between the points. Where two humps are
 * as high, scatter decides which of them a pull shows as its peak; the mean moves smoothly from the one to the other.
 */
export function topSpeed(points: readonly { readonly rpm: number; readonly value: number }[]): number {
  const top = Math.max(...points.map(({ value }) => value));
  let weights = 0;
  let moment = 0;
  points.slice(1).forEach((b, i) => {
    const a = points[i];
    for (let k = 0; k < TOP_STEPS; k++) {
      const share = (k + 0.5) / TOP_STEPS;
      const weight = (b.rpm - a.rpm) * Math.exp(((a.value + share * (b.value - a.value)) / top - 1) / TOP);
      weights += weight;
      moment += weight * (a.rpm + share * (b.rpm - a.rpm));
    }
  });
  return moment / weights;
}

function topValue(points: readonly { readonly rpm: number; readonly value: number }[]): number {
  return topOf(points.map(({ rpm, value }) => ({ x: rpm, y: value }))).y;
}

/** No more than nine of the measured speeds, spread evenly, none nearer to the next than 250 rpm where that can be. */
function fitSpeeds(speeds: readonly number[]): number[] {
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
