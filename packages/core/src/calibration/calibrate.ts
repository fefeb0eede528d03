/** Fitting a combination's physical knobs to what a dyno measured. */
import { DomainError } from '../base/errors.ts';
import { VERSION } from '../base/version.ts';
import { type Baseline, pinBaseline, sheetsOf } from '../changes/baseline.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import type { Curve } from '../forecast/curve.ts';
import { type LeftOut, leftOutOf } from '../forecast/wholeCurve.ts';
import { dampedLeastSquares, type FitResult } from '../numerics/dampedLeastSquares.ts';
import { editDocument } from '../reading/editDocument.ts';
import type { FieldValue } from '../reading/editText.ts';
import type { CombinationDocument, Plain } from '../reading/readDocument.ts';
import { resolveDocument } from '../reading/resolveDocument.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { JobControl, RunJobs, StudyJob } from '../studies/job.ts';
import type { CalibrationResult, Confusion, FitPoint, FittedKnob } from './calibrationResult.ts';
import { type CalibrationTarget, forecastOf, withoutSpeeds } from './calibrationTarget.ts';
import { disagreementOf } from './disagreement.ts';
import { DEFAULT_KNOBS, type Knob, type KnobName, knobsOf, knobText } from './knobs.ts';

/** What to fit, and how. */
export interface CalibrateOptions extends JobControl {
  readonly runJobs: RunJobs;
  /** Text of the sheets the combination names. */
  readonly sheet?: SheetSource | undefined;
  /** One to four; default flow, heat, friction and length. */
  readonly knobs?: readonly KnobName[] | undefined;
}

/** A calibration with the document that carries it, or the problems that kept it from being made. */
export type CalibrateResult =
  | { readonly ok: true; readonly result: CalibrationResult; readonly document: CombinationDocument | null }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Correlation beyond which two knobs count as confused [-]. */
const CONFUSED = 0.7;

/**
 * Fits a document to a target by damped least squares: what is measured against its scatter and the model's own error,
 * the knobs against their spreads. A document that was calibrated before starts from its estimates again. The document
 * that comes back has the knobs and the calibration in it; it is null unless the outcome is `fitted`.
 *
 * @throws {@link DomainError} for knobs that are none
 */
export async function calibrate(
  document: CombinationDocument,
  target: CalibrationTarget,
  options: CalibrateOptions,
): Promise<CalibrateResult> {
  const clean = withoutCalibration(document);
  const pinned = pinBaseline(clean, { sheet: options.sheet });
  if (!pinned.ok) return pinned;
  const { baseline } = pinned;
  const knobs = knobsOf(options.knobs ?? DEFAULT_KNOBS, clean, baseline.combination.assumed);
  const fitting = await fitKnobs(baseline, knobs, target, options);
  const result = resultOf(baseline.combination, knobs, fitting);
  const done = result.outcome === 'fitted' && result.calibration !== null;
  return { ok: true, result, document: done ? calibratedDocument(clean, result) : null };
}

/** The document without a former calibration and the knobs it had set. */
export function withoutCalibration(document: CombinationDocument): CombinationDocument {
  if ((document.data['calibration'] ?? null) === null) return document;
  return [...formerKnobs(document), 'calibration'].reduce(
    (left, path) => editDocument(left, path, null),
    document,
  );
}

/** Fields that the calibration in a document has set. */
export function formerKnobs(document: CombinationDocument): readonly string[] {
  const knobs = valueAt(document.data, 'calibration.knobs');
  if (!Array.isArray(knobs)) return [];
  return knobs.flatMap((knob: Plain) => {
    const field = valueAt(knob, 'field');
    return typeof field === 'string' ? [field] : [];
  });
}

/** The fields a calibration sets, by path, as they stand in a file. */
export function calibrationEdits(result: CalibrationResult): readonly FieldValue[] {
  const { calibration } = result;
  if (calibration === null) return [];
  const share = (value: number, unit: string) =>
    unit === '%' ? `${Number(value.toPrecision(5))} %` : Number(value.toPrecision(5));
  return [
    ...calibration.knobs.map(({ path, value, unit }) => [path, share(value, unit)] as const),
    [
      'calibration',
      {
        sheets: calibration.sheets,
        knobs: calibration.knobs.map(({ path, value, unit, spread }) => ({
          field: path,
          value: share(value, unit),
          spread: unit === '%' ? `${Number(spread.toPrecision(3))} %` : Number(spread.toPrecision(3)),
        })),
        correlation: calibration.correlation,
      },
    ],
  ];
}

function calibratedDocument(document: CombinationDocument, result: CalibrationResult): CombinationDocument {
  return calibrationEdits(result).reduce(
    (edited, [path, value]) => editDocument(edited, path, value),
    document,
  );
}

/** The combination with its knobs at given values, in the air of the target, its torque as observed. */
export function knobbed(
  baseline: Baseline,
  knobs: readonly Knob[],
  values: readonly number[],
  air: Pick<CalibrationTarget, 'weather'>,
): Combination {
  const document = knobs.reduce(
    (edited, knob, i) => editDocument(edited, knob.path, knobText(knob.path, values[i])),
    baseline.document,
  );
  const resolved = resolveDocument(document, { sheet: sheetsOf(baseline.sheets) });
  // The baseline itself was sound, and a knob within its limits makes no file unsound.
  if (!resolved.ok) throw new DomainError('knobs', values.join(', '), 'values the combination bears');
  return asObserved(resolved.combination, air);
}

/** A combination to be forecast in the air of a pull, its torque as observed. */
export function asObserved(
  combination: Combination,
  { weather }: Pick<CalibrationTarget, 'weather'>,
): Combination {
  return { ...combination, weather: weather ?? combination.weather, correction: 'none' };
}

/** A fit, and what it was made to. */
interface Fitting {
  /** Without the speeds that were lost. */
  readonly target: CalibrationTarget;
  /** Null where an abort came first, or too little is left to fit. */
  readonly fit: FitResult | null;
  /** What the combination gave for each aim before the fit. */
  readonly before: readonly number[];
  readonly leftOut: readonly LeftOut[];
  readonly forecasts: number;
}

/** A fit to fewer speeds than this says nothing. */
const LEAST_SPEEDS = 2;

/** Fits; where a speed is lost with some value of the knobs, fits again without it, what was forecast before being kept. */
async function fitKnobs(
  baseline: Baseline,
  knobs: readonly Knob[],
  whole: CalibrationTarget,
  { runJobs, signal, onProgress }: CalibrateOptions,
): Promise<Fitting> {
  const curves = new Map<string, Curve>();
  const lost = new Map<number, LeftOut>();
  const forecastAll = async (points: readonly (readonly number[])[]): Promise<void> => {
    const missing = points.filter((values) => !curves.has(values.join(' ')));
    const done = curves.size;
    const found = await runJobs(
      missing.map(
        (values): StudyJob => ({ combination: knobbed(baseline, knobs, values, whole), rpm: whole.rpm }),
      ),
      {
        ...(signal === undefined ? {} : { signal }),
        onProgress: (finished, total) => onProgress?.(done + finished, done + total),
      },
    );
    missing.forEach((values, i) => {
      const curve = found[i] ?? null;
      if (curve === null) return;
      curves.set(values.join(' '), curve);
      for (const entry of leftOutOf(baseline.combination.name, curve)) lost.set(entry.rpm, entry);
    });
  };
  for (;;) {
    const gone = [...lost.keys()];
    const target = withoutSpeeds(whole, gone);
    const left = (): Pick<Fitting, 'target' | 'leftOut' | 'forecasts'> => ({
      target,
      leftOut: [...lost.values()].sort((a, b) => a.rpm - b.rpm),
      forecasts: curves.size,
    });
    if (gone.length > 0 && target.rpm.length < LEAST_SPEEDS) return { ...left(), fit: null, before: [] };
    let before: readonly number[] | null = null;
    const fit = await dampedLeastSquares(
      knobs.map(({ value, spread, min, max, step }) => ({ mean: value, spread, min, max, step })),
      async (points) => {
        await forecastAll(points);
        if (lost.size > gone.length) return points.map(() => null);
        const of = points.map((values) => curves.get(values.join(' ')) ?? null);
        const [first] = of;
        if (first !== null && first !== undefined) before ??= forecastOf(target, first);
        return of.map((curve) => (curve === null ? null : residualsOf(target, curve)));
      },
    );
    if (lost.size === gone.length)
      return { ...left(), fit: before === null ? null : fit, before: before ?? [] };
  }
}

function residualsOf(target: CalibrationTarget, curve: Curve): number[] {
  return forecastOf(target, curve).map(
    (value, i) => (value - target.aims[i].measured) / target.aims[i].sigma,
  );
}

function resultOf(
  combination: Combination,
  knobs: readonly Knob[],
  { target, fit, before, leftOut, forecasts }: Fitting,
): CalibrationResult {
  const base = {
    schemaVersion: 1 as const,
    program: { name: 'valvetide' as const, version: VERSION },
    combination: combination.name,
    sheets: target.names,
    standard: target.standard,
    repeatability: target.repeatability,
    modelError: target.modelError,
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
      points: [],
      error: { before: 0, after: 0 },
      disagreement: null,
      calibration: null,
    };
  }
  const points = target.aims.map(
    (aim, i): FitPoint => ({
      kind: aim.kind,
      rpm: aim.rpm,
      measured: aim.measured,
      before: before[i],
      after: aim.measured + fit.residuals[i] * aim.sigma,
      sigma: aim.sigma,
    }),
  );
  const spreads = fit.covariance.map((row, i) => Math.sqrt(row[i]));
  const correlation = fit.covariance.map((row, i) =>
    row.map((value, j) => (i === j ? 1 : Number((value / (spreads[i] * spreads[j])).toFixed(4)))),
  );
  const fitted = knobs.map((knob, i): FittedKnob => {
    const inPercent = knob.path === 'burn.efficiency';
    const scale = inPercent ? 100 : 1;
    const left = spreads[i] / knob.spread;
    return {
      name: knob.name,
      path: knob.path,
      what: knob.what,
      unit: inPercent ? '%' : '',
      before: knob.value * scale,
      spreadBefore: knob.spread * scale,
      after: Number((fit.x[i] * scale).toPrecision(5)),
      spread: spreads[i] * scale,
      told: left <= 0.5 ? 'yes' : left >= 0.8 ? 'hardly' : 'partly',
      atLimit: fit.held[i] !== 0,
    };
  });
  const disagreement = disagreementOf(knobs, fit.held, points);
  const outcome = !fit.complete ? 'incomplete' : disagreement === null ? 'fitted' : 'sheets disagree';
  return {
    ...base,
    outcome,
    knobs: fitted,
    correlation,
    confusions: confusionsOf(knobs, correlation),
    points,
    error: { before: rootMeanSquare(points, 'before'), after: rootMeanSquare(points, 'after') },
    disagreement,
    calibration:
      outcome !== 'fitted'
        ? null
        : {
            sheets: target.names,
            knobs: fitted.map(({ path, after, unit, spread }) => ({ path, value: after, unit, spread })),
            correlation,
          },
  };
}

function confusionsOf(knobs: readonly Knob[], correlation: readonly (readonly number[])[]): Confusion[] {
  return knobs.flatMap((a, i) =>
    knobs.slice(i + 1).flatMap((b, k): Confusion[] => {
      const r = correlation[i][i + 1 + k];
      return Math.abs(r) >= CONFUSED ? [{ knobs: [a.name, b.name], correlation: r }] : [];
    }),
  );
}

function rootMeanSquare(points: readonly FitPoint[], side: 'before' | 'after'): number {
  const figures = points.filter((point) => !point.kind.endsWith('speed'));
  const sum = figures.reduce((squares, point) => squares + (point[side] / point.measured - 1) ** 2, 0);
  return Math.sqrt(sum / Math.max(1, figures.length));
}
