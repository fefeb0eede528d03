/** Measured pressures laid over those of a forecast: their means, how high their waves are, and by how much one lags the other. */

import type { Fidelity } from '../assembly/symmetry.ts';
import { BAR } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import type { MeasuredPressure, PressureSheet } from '../dyno/pressureSheet.ts';
import {
  type PressurePlace,
  type PressureTrace,
  type PressureTraceOptions,
  tracePressures,
} from '../forecast/pressureTrace.ts';
import { sheetProblem } from '../reading/sheet/sheetProblem.ts';
import { fitOf } from './pressureFit.ts';

/** Pressures of one sensor and of the forecast at its place; lists run alike. */
export interface PressureOverlay {
  /** Name of the sheet. */
  readonly sheet: string;
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Number of the cylinder, from 1. */
  readonly cylinder: number;
  /** Which gas. */
  readonly place: PressurePlace;
  /** From the valve along the pipe [m]; 0 in the cylinder. */
  readonly fromValveM: number;
  /** Which cylinders marched. */
  readonly fidelity: Fidelity;
  /** `unsettled`: the forecast's cycle did not repeat. */
  readonly status: 'settled' | 'unsettled';
  /** Crank angle after firing top centre [deg], as the sheet has it. */
  readonly angleDeg: readonly number[];
  /** Absolute [Pa]. */
  readonly measuredPa: readonly number[];
  /** Absolute, at the same angles [Pa]. */
  readonly forecastPa: readonly number[];
  /** Means over the angles of the sheet [Pa]. */
  readonly meanMeasuredPa: number;
  /** Likewise of the forecast [Pa]. */
  readonly meanForecastPa: number;
  /** Highest less lowest [Pa]. */
  readonly swingMeasuredPa: number;
  /** Likewise of the forecast [Pa]. */
  readonly swingForecastPa: number;
  /** Root mean square of forecast less measured [Pa]. */
  readonly rootMeanSquarePa: number;
  /** By how much the forecast's waves come later than the measured ones [deg]; null where no shift within 60 makes them alike. */
  readonly lagDeg: number | null;
  /** How alike they are once shifted: 1 the same form, 0 none of it [-]. */
  readonly likeness: number;
}

/** Sheets of pressures beside a forecast. */
export interface PressureComparison {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** Name of the combination. */
  readonly combination: string;
  /** One a sensor, in the order of the sheets. */
  readonly overlays: readonly PressureOverlay[];
  /** What was taken for granted, for people. */
  readonly notes: readonly string[];
}

/**
 * Forecasts the pressures where the sensors of some sheets sat, at their speeds, and sets both side by side. A sheet that doesn't fit the
 * combination, a place beyond its pipe say, gives problems.
 *
 * @example
 * ```ts
 * const compared = comparePressures(combination, [pressures]);
 * if (compared.ok) console.log(compared.value.overlays[0].lagDeg);
 * ```
 */
export function comparePressures(
  combination: Combination,
  sheets: readonly PressureSheet[],
  options: Pick<PressureTraceOptions, 'mesh'> = {},
): Result<PressureComparison, Problem> {
  const problems: Problem[] = [];
  const overlays: PressureOverlay[] = [];
  const notes: string[] = [];
  for (const sheet of sheets) {
    const trace = traceFor(combination, sheet, options, problems);
    if (trace === null) continue;
    const barometer = sheet.barometerPa ?? combination.weather.pressure;
    if (sheet.traces.some(({ reference }) => reference === 'gauge') && sheet.barometerPa === null)
      notes.push(
        `${sheet.name}: gauge pressures counted from the combination's barometer, ${(barometer / BAR).toFixed(4)} bar`,
      );
    notes.push(...sheet.notes.map((note) => `${sheet.name}: ${note}`));
    sheet.traces.forEach((measured, i) => {
      overlays.push(overlayOf(sheet, measured, trace, i, barometer));
    });
  }
  if (problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    value: {
      schemaVersion: 1,
      program: { name: 'valvetide', version: VERSION },
      combination: combination.name,
      overlays,
      notes,
    },
  };
}

/** Null where the sheet is of no such engine. */
function traceFor(
  combination: Combination,
  { name, rpm, cylinder, traces: places }: PressureSheet,
  options: Pick<PressureTraceOptions, 'mesh'>,
  problems: Problem[],
): PressureTrace | null {
  try {
    return tracePressures(combination, { ...options, rpm, cylinder, places });
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    problems.push(
      sheetProblem(name, null, 'pressure-unclear', `does not suit this engine: ${error.message}`),
    );
    return null;
  }
}

function overlayOf(
  { name, rpm, cylinder }: PressureSheet,
  { place, fromValveM, angleDeg, pressurePa, reference }: MeasuredPressure,
  trace: PressureTrace,
  index: number,
  barometer: number,
): PressureOverlay {
  const measuredPa = reference === 'gauge' ? pressurePa.map((p) => p + barometer) : pressurePa;
  const fit = fitOf(
    { angleDeg, value: measuredPa },
    { angleDeg: trace.angleDeg, value: trace.pressurePa[index] },
  );
  return {
    sheet: name,
    rpm,
    cylinder,
    place,
    fromValveM,
    fidelity: trace.fidelity,
    status: trace.status,
    angleDeg,
    measuredPa,
    forecastPa: fit.forecast,
    meanMeasuredPa: fit.meanMeasured,
    meanForecastPa: fit.meanForecast,
    swingMeasuredPa: swing(measuredPa),
    swingForecastPa: swing(fit.forecast),
    rootMeanSquarePa: fit.rootMeanSquare,
    lagDeg: fit.lag,
    likeness: fit.likeness,
  };
}

function swing(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
