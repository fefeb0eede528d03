/** What a fit ended as, told for people and kept for the file. */
import { VERSION } from '../base/version.ts';
import type { Calibration } from '../combination/calibration.ts';
import type { Combination } from '../combination/combination.ts';
import type { FitResult } from '../numerics/dampedLeastSquares.ts';
import { rootMeanSquare } from '../numerics/rootMeanSquare.ts';
import type { CalibrationResult, Disagreement, FitPoint, FittedKnob } from './calibrationResult.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';
import { confusionsOf } from './confusions.ts';
import { type KnobFit, LEAST_SPEEDS } from './fitRun.ts';
import type { Knob } from './knobs.ts';
import { worthKnowing } from './worthKnowing.ts';

/** Each aim with the forecast before and after. */
export function fitPoints(target: CalibrationTarget, fit: FitResult, before: readonly number[]): FitPoint[] {
  return target.aims.map(
    (aim, i): FitPoint => ({
      kind: aim.kind,
      rpm: aim.rpm,
      measured: aim.measured,
      before: before[i],
      after: aim.measured + fit.residuals[i] * aim.sigma,
      sigma: aim.sigma,
    }),
  );
}

/** What speaks against a fit, and whether its calibration is wanted all the same. */
export interface FitDoubt {
  readonly disagreement: Disagreement | null;
  readonly accept: boolean;
}

/** The result of a fit, or of none. */
export function calibrationResultOf(
  combination: Combination,
  knobs: readonly Knob[],
  { target, fit, before, run }: KnobFit,
  { disagreement, accept }: FitDoubt,
): CalibrationResult {
  const { leftOut, forecasts } = run;
  const base = {
    schemaVersion: 1 as const,
    program: { name: 'valvetide' as const, version: VERSION },
    combination: combination.name,
    sheets: target.names,
    standard: target.standard,
    repeatability: target.repeatability,
    modelError: target.modelError,
    heldBack: target.heldBack ?? null,
    notes: target.notes,
    leftOut,
    forecasts,
  };
  if (fit === null) {
    return {
      ...base,
      outcome: leftOut.length > 0 && target.rpm.length < LEAST_SPEEDS ? 'lost' : 'incomplete',
      knobs: [],
      correlation: [],
      confusions: [],
      measureFirst: null,
      points: [],
      error: { before: 0, after: 0 },
      disagreement: null,
      calibration: null,
    };
  }
  const points = fitPoints(target, fit, before);
  const spreads = fit.covariance.map((row, i) => Math.sqrt(row[i]));
  const correlation = fit.covariance.map((row, i) =>
    row.map((value, j) => (i === j ? 1 : Number((value / (spreads[i] * spreads[j])).toFixed(4)))),
  );
  const fitted = knobs.map((knob, i) =>
    fittedKnob(knob, { value: fit.x[i], spread: spreads[i], atLimit: fit.held[i] !== 0 }),
  );
  const outcome = !fit.complete ? 'incomplete' : disagreement === null ? 'fitted' : 'sheets disagree';
  const holds = outcome === 'fitted' || (outcome === 'sheets disagree' && accept);
  return {
    ...base,
    outcome,
    knobs: fitted,
    correlation,
    confusions: confusionsOf(knobs, fit.covariance, correlation),
    measureFirst: worthKnowing(knobs, target, fit.covariance, fit.jacobian),
    points,
    error: { before: errorOf(points, 'before'), after: errorOf(points, 'after') },
    disagreement,
    calibration: holds ? calibrationOf(target, fitted, correlation, disagreement?.message ?? null) : null,
  };
}

/** Most of a knob's spread [-] that is left where the data told its value, and least where they hardly did. */
const TOLD = 0.5;
const HARDLY_TOLD = 0.8;

/** A knob as results show it; a share of fuel in percent. */
function fittedKnob(
  knob: Knob,
  { value, spread, atLimit }: { readonly value: number; readonly spread: number; readonly atLimit: boolean },
): FittedKnob {
  const inPercent = knob.path === 'burn.efficiency';
  const scale = inPercent ? 100 : 1;
  const left = spread / knob.spread;
  return {
    name: knob.name,
    path: knob.path,
    what: knob.what,
    unit: inPercent ? '%' : '',
    before: knob.value * scale,
    spreadBefore: knob.spread * scale,
    after: Number((value * scale).toPrecision(5)),
    spread: spread * scale,
    told: left <= TOLD ? 'yes' : left >= HARDLY_TOLD ? 'hardly' : 'partly',
    atLimit,
  };
}

/** What stays in the file. The dyno is no part of the engine: leaving it out of the correlation draws over all it may read. */
function calibrationOf(
  target: CalibrationTarget,
  fitted: readonly FittedKnob[],
  correlation: readonly (readonly number[])[],
  doubt: string | null,
): Calibration {
  const kept = fitted.flatMap(({ path, after, unit, spread }, at) =>
    path === null ? [] : [{ at, knob: { path, value: after, unit, spread } }],
  );
  const dyno = fitted.find(({ name }) => name === 'dyno');
  return {
    sheets: target.names,
    knobs: kept.map(({ knob }) => knob),
    correlation: kept.map(({ at: row }) => kept.map(({ at }) => correlation[row][at])),
    dyno: dyno === undefined ? null : { reads: dyno.after, spread: dyno.spread },
    doubt,
  };
}

/** Of forecast over measured less one, torque and power figures [-]. */
function errorOf(points: readonly FitPoint[], side: 'before' | 'after'): number {
  const figures = points.filter((point) => !point.kind.endsWith('speed'));
  return rootMeanSquare(figures.map((point) => point[side] / point.measured - 1));
}
