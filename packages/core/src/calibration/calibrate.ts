/** Fitting a combination's physical knobs to what a dyno measured. */

import type { Result } from '../base/result.ts';
import { type Baseline, pinBaseline, sheetsOf } from '../changes/baseline.ts';
import type { Calibration } from '../combination/calibration.ts';
import type { Problem } from '../combination/problem.ts';
import type { FitResult } from '../numerics/dampedLeastSquares.ts';
import type { CombinationDocument, Plain } from '../reading/combinationDocument.ts';
import { editDocument } from '../reading/editDocument.ts';
import type { FieldValue } from '../reading/editText.ts';
import { fieldOf } from '../reading/fieldOf.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { StudyControl } from '../studies/job.ts';
import type { CalibrationResult } from './calibrationResult.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';
import { type Doubt, disagreementOf, doubtOf } from './disagreement.ts';
import { calibrationResultOf, fitPoints } from './fitOutcome.ts';
import { fitKnobs, type KnobFit, unknownOf } from './fitRun.ts';
import { DEFAULT_KNOBS, type Knob, type KnobName, knobsOf } from './knobs.ts';
import { heldByUnsaidRate, steadyTarget } from './steadyTarget.ts';
import { trySuspects } from './suspects.ts';
import type { TrialGround } from './suspectTrial.ts';

/** What to fit, and how. */
export interface CalibrateOptions extends StudyControl {
  /** Text of sheets that the baseline does not bring. */
  readonly sheet?: SheetSource | undefined;
  /** Default {@link DEFAULT_KNOBS}. */
  readonly knobs?: readonly KnobName[] | undefined;
  /** Give a calibration, marked as doubtful, also where the sheets disagree. Default false. */
  readonly accept?: boolean | undefined;
}

/** A calibration, and the combination's file with what it found. */
export interface CalibrationWithDocument {
  /** What moved, how surely, and how near the fit comes. */
  readonly result: CalibrationResult;
  /** The document with the knobs and the calibration in it; null unless the outcome is `fitted`, or the doubt accepted. */
  readonly document: CombinationDocument | null;
}

/**
 * Fits a combination to a target by damped least squares: what is measured against its scatter and the model's own error,
 * the knobs against their spreads. A combination that was calibrated before starts from its estimates again.
 *
 * @throws {@link DomainError} for knobs that are none
 *
 * @example
 * ```ts
 * const sheet = readDynoSheet(csv, { name: 'pulls.csv' });
 * if (!sheet.ok) throw new Error(sheet.problems.map(problemLine).join('\n'));
 * const fitted = await calibrate(baseline, sheetTarget(sheet.value));
 * if (fitted.ok) console.log(fitted.value.result.error);
 * ```
 */
export async function calibrate(
  baseline: Baseline,
  target: CalibrationTarget,
  options: CalibrateOptions = {},
): Promise<Result<CalibrationWithDocument, Problem>> {
  const clean = withoutCalibration(baseline.stated);
  const pinned = pinBaseline(clean, { sheet: sheetsOf(baseline.sheets, options.sheet) });
  if (!pinned.ok) return pinned;
  const place = target.atWheels === true ? 'wheels' : 'engine';
  const knobs = knobsOf(options.knobs ?? DEFAULT_KNOBS, clean, pinned.value.combination.assumed, place);
  const steady = steadyTarget(target, pinned.value.combination);
  const fitting = await fitKnobs(pinned.value, knobs, steady, options);
  const doubt = doubtOfFitting(knobs, fitting);
  const { fit } = fitting;
  const tried =
    doubt === null || fit === null ? [] : await trySuspects(groundOf(pinned.value, knobs, fitting, fit));
  const disagreement = doubt === null ? null : disagreementOf(doubt, tried);
  const { combination } = pinned.value;
  const { accept = false } = options;
  const result = calibrationResultOf(combination, knobs, fitting, { disagreement, accept });
  const document = result.calibration === null ? null : calibratedDocument(clean, result);
  return { ok: true, value: { result, document } };
}

function doubtOfFitting(knobs: readonly Knob[], { target, fit, before }: KnobFit): Doubt | null {
  return fit?.complete === true ? doubtOf(knobs, fit.held, fitPoints(target, fit, before)) : null;
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
  const knobs = fieldOf(document, 'calibration.knobs');
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
        ...(calibration.dyno === null ? {} : { dyno: dynoText(calibration.dyno) }),
        ...(calibration.doubt === null ? {} : { doubt: calibration.doubt }),
      },
    ],
  ];
}

function dynoText({ reads, spread }: NonNullable<Calibration['dyno']>): Plain {
  return { reads: Number(reads.toPrecision(5)), spread: Number(spread.toPrecision(3)) };
}

function calibratedDocument(document: CombinationDocument, result: CalibrationResult): CombinationDocument {
  return calibrationEdits(result).reduce(
    (edited, [path, value]) => editDocument(edited, path, value),
    document,
  );
}

function groundOf(
  baseline: Baseline,
  knobs: readonly Knob[],
  { target, run }: KnobFit,
  fit: FitResult,
): TrialGround {
  return {
    document: baseline.document,
    target,
    unknowns: knobs.map(unknownOf),
    fit,
    heldByRate: heldByUnsaidRate(target, baseline.combination),
    residualsWith: (alter) => run.altered(target, fit.x, alter),
  };
}
