/** A change whose outcome is known already: calibrated on the sheet before it, forecast to the sheet after it. */
import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import { applyChanges } from '../changes/applyChanges.ts';
import { type Baseline, pinBaseline, sheetsOf } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import type { DynoSheet } from '../dyno/dynoSheet.ts';
import { comparePulls, type PullComparison } from '../dyno/pullComparison.ts';
import { recorrectSheet } from '../dyno/recorrectSheet.ts';
import { steadySheet } from '../dyno/steadySheet.ts';
import { type BandWeighting, bandMean, type SpeedBand } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import { isMarched, leftOutOf } from '../forecast/wholeCurve.ts';
import { type GainSpread, gainSpread } from '../ranking/gainSpread.ts';
import type { CombinationDocument } from '../reading/combinationDocument.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { type JobControl, runJobsHere, type StudyJob } from '../studies/job.ts';
import type { BacktestPoint, BacktestResult } from './backtestResult.ts';
import { type CalibrateOptions, calibrate } from './calibrate.ts';
import { dayOf } from './dayOfPulls.ts';
import { asObserved } from './fitRun.ts';
import { sheetTarget } from './sheetTarget.ts';

/** What a calibration takes, and the band to judge the change over. */
export interface BacktestOptions extends CalibrateOptions {
  /** Default: all speeds both sheets share. */
  readonly band?: SpeedBand | undefined;
  /** What counts equally in a mean; default `speed`. */
  readonly weighting?: BandWeighting | undefined;
}

/** A change that was made and measured. */
export interface MeasuredChange {
  /** What was changed, all of it together. */
  readonly changes: readonly Change[];
  /** Dyno sheet of the baseline. */
  readonly before: DynoSheet;
  /** Dyno sheet with the changes. */
  readonly after: DynoSheet;
}

/**
 * Calibrates on `before`, applies the changes and holds the forecast to `after`, each in the air of its own day. Only the
 * sheet before is fitted: nothing of the sheet after is used but for the comparison.
 *
 * @throws {@link DomainError} where the sheets share no speed, or can't be taken to one standard
 *
 * @example
 * ```ts
 * const tested = await backtest(baseline, { changes: [milled], before: stock, after: withMilledHead });
 * if (tested.ok) console.log(tested.value.gain?.verdict);
 * ```
 */
export async function backtest(
  baseline: Baseline,
  measuredChange: MeasuredChange,
  options: BacktestOptions = {},
): Promise<Result<BacktestResult, Problem>> {
  const { changes, before } = measuredChange;
  const after = recorrectSheet(measuredChange.after, before.standard).sheet;
  const { band, weighting } = options;
  const sheet = sheetsOf(baseline.sheets, options.sheet);
  // The changes are tried before hours of forecasts.
  const trial = changedBy(baseline.stated, changes, sheet);
  if (!trial.ok) return trial;
  const steady = {
    before: steadySheet(before, trial.value.before),
    after: steadySheet(after, trial.value.after),
  };
  const measured = comparePulls(steady.before.sheet, steady.after.sheet, { band, weighting });
  const target = sheetTarget(before);
  const calibrated = await calibrate(baseline, target, options);
  if (!calibrated.ok) return calibrated;
  const { result: calibration } = calibrated.value;
  const base = {
    schemaVersion: 1 as const,
    program: { name: 'valvetide' as const, version: VERSION },
    combination: calibration.combination,
    changes: changes.map((change) => change.name),
    calibration,
    heldBack: { before: steady.before.heldBack, after: steady.after.heldBack },
    measured,
    notes: [...new Set([...before.notes, ...after.notes])],
    leftOut: calibration.leftOut,
  };
  const fitted = calibrated.value.document;
  if (fitted === null) {
    const outcome = calibration.outcome === 'fitted' ? 'incomplete' : calibration.outcome;
    return { ok: true, value: { ...base, outcome, points: [], gain: null } };
  }
  const pair = changedBy(fitted, changes, sheet);
  if (!pair.ok) return pair;
  // Both sheets are of one dyno.
  const reads = calibration.calibration?.dyno?.reads ?? 1;
  const days = { before: dayOnDyno(before, reads), after: dayOnDyno(after, reads) };
  const held = await heldToSheets(pair.value, joined(changes), {
    measured,
    days,
    sheet,
    done: calibration.forecasts,
    options,
  });
  return { ok: true, value: { ...base, ...held, leftOut: [...base.leftOut, ...held.leftOut] } };
}

/** What a changed engine is held to, and with what means. */
interface SheetMeans {
  readonly measured: PullComparison;
  readonly days: Days;
  readonly sheet: SheetSource;
  /** Forecasts that were done before. */
  readonly done: number;
  readonly options: BacktestOptions;
}

/** Forecasts both engines, each in the air of its day, and holds what the change gains to what it was measured to. */
async function heldToSheets(
  { baseline, before, after }: ChangedPair,
  change: Change,
  { measured, days, sheet, done, options }: SheetMeans,
): Promise<Pick<BacktestResult, 'outcome' | 'points' | 'gain' | 'leftOut'>> {
  const { run = runJobsHere, signal } = options;
  const rpm = speedsOf(measured);
  const jobs: StudyJob[] = [
    { combination: asObserved(before, days.before), rpm },
    { combination: asObserved(after, days.after), rpm },
  ];
  const curves = await run(jobs, controlAfter(done, options));
  const pair = pairOf(curves, days);
  const spreads =
    pair === null
      ? null
      : await gainSpread(baseline, change, measured.band, {
          ...controlAfter(done + jobs.length, options),
          run,
          sheet,
        });
  const leftOut = [...leftOutOf('before', curves[0] ?? null), ...leftOutOf('after', curves[1] ?? null)];
  const isAborted = signal?.aborted === true;
  if (pair === null || isAborted) {
    const outcome = curves.includes(null) || isAborted ? 'incomplete' : 'lost';
    return { outcome, points: [], gain: null, leftOut };
  }
  return {
    outcome: 'forecast',
    points: pointsOf(pair, measured, spreads),
    gain: judged(pair, measured, spreads?.band ?? null),
    leftOut,
  };
}

/** Each speed that was forecast on both sides, beside what was measured there. */
function pointsOf(
  { before, after }: Pair,
  measured: PullComparison,
  spreads: GainSpread | null,
): readonly BacktestPoint[] {
  return measured.points.flatMap(({ rpm, beforeNm, afterNm, gain }): readonly BacktestPoint[] => {
    const i = after.findIndex((point) => point.rpm === rpm);
    if (i < 0) return [];
    return [
      {
        rpm,
        before: { measuredNm: beforeNm, forecastNm: before[i].torqueNm },
        after: { measuredNm: afterNm, forecastNm: after[i].torqueNm },
        measuredGain: gain,
        forecastGain: after[i].torqueNm / before[i].torqueNm - 1,
        spread: spreads?.at(rpm)?.ratio ?? null,
      },
    ];
  });
}

/** The forecast gain over the band held to the measured one; `spread`: one standard deviation of it [-]. */
function judged(pair: Pair, measured: PullComparison, spread: number | null): BacktestResult['gain'] {
  const forecast = gainOver(pair, measured);
  const seen = measuredOver(
    measured,
    pair.after.map(({ rpm }) => rpm),
  );
  const error = forecast - seen;
  const off = Math.abs(error);
  const near = measured.resolvable + 2 * (spread ?? 0);
  const verdict = off <= measured.resolvable ? 'within' : off <= near ? 'near' : 'beyond';
  return { measured: seen, forecast, spread, error, verdict, rightSign: forecast * seen > 0 };
}

/** Air of a sheet's pulls, and the factor from a forecast in it to what this dyno prints. */
function dayOnDyno({ pulls, standard }: DynoSheet, reads: number): ReturnType<typeof dayOf> {
  const day = dayOf(pulls, standard);
  return { ...day, factor: reads * day.factor };
}

/** Of the sheets before and after. */
type Days = Readonly<Record<'before' | 'after', ReturnType<typeof dayOnDyno>>>;

interface Torque {
  readonly rpm: number;
  readonly torqueNm: number;
}

interface Pair {
  readonly before: readonly Torque[];
  readonly after: readonly Torque[];
}

/** Baseline and changed engine of a document. */
interface ChangedPair {
  readonly baseline: Baseline;
  readonly before: Combination;
  readonly after: Combination;
}

/** Of a document, calibrated or not. */
function changedBy(
  document: CombinationDocument,
  changes: readonly Change[],
  sheet: SheetSource,
): Result<ChangedPair, Problem> {
  const pinned = pinBaseline(document, { sheet });
  if (!pinned.ok) return pinned;
  const applied = applyChanges(pinned.value, changes, { sheet });
  if (!applied.ok) return applied;
  const baseline = pinned.value;
  return { ok: true, value: { baseline, before: baseline.combination, after: applied.value } };
}

/** Changes made together, as one. */
function joined(changes: readonly Change[]): Change {
  const [first] = changes;
  if (changes.length === 1) return first;
  const { source: _, ...rest } = first;
  const name = changes.map((change) => change.name).join(' and ');
  return { ...rest, name, edits: changes.flatMap((change) => change.edits) };
}

/** The caller's control, its progress counted on from the forecasts done. */
function controlAfter(done: number, { signal, onProgress }: BacktestOptions): JobControl {
  return {
    ...(signal === undefined ? {} : { signal }),
    ...(onProgress === undefined ? {} : { onProgress: (n, of) => onProgress(done + n, done + of) }),
  };
}

/** Torque of both at the speeds that neither lost; null where there are none. */
function pairOf([before = null, after = null]: readonly (Curve | null)[], days: Days): Pair | null {
  if (before === null || after === null) return null;
  const both = before.points.flatMap((point, i) => {
    const other = after.points[i];
    return isMarched(point) && isMarched(other) ? [{ rpm: point.rpm, point, other }] : [];
  });
  if (both.length === 0) return null;
  return {
    before: both.map(({ rpm, point }) => ({ rpm, torqueNm: days.before.factor * point.torqueNm })),
    after: both.map(({ rpm, other }) => ({ rpm, torqueNm: days.after.factor * other.torqueNm })),
  };
}

function gainOver({ before, after }: Pair, { band, weighting }: PullComparison): number {
  return bandMean(after, band, weighting).powerKw / bandMean(before, band, weighting).powerKw - 1;
}

/** The measured gain over the very speeds that were forecast, so that both are means of the same kind. */
function measuredOver(measured: PullComparison, rpm: readonly number[]): number {
  const points = measured.points.filter((point) => rpm.includes(point.rpm));
  const before = points.map((point) => ({ rpm: point.rpm, torqueNm: point.beforeNm }));
  const after = points.map((point) => ({ rpm: point.rpm, torqueNm: point.afterNm }));
  return gainOver({ before, after }, measured);
}

/** No more than nine of the shared speeds, evenly spread, with those next to the band's ends. */
function speedsOf({ points, band }: PullComparison): number[] {
  const speeds = points.map((point) => point.rpm);
  const from = speeds.filter((n) => n <= band.fromRpm).pop() ?? speeds[0];
  const to = speeds.find((n) => n >= band.toRpm) ?? speeds[speeds.length - 1];
  const inside = speeds.filter((n) => n >= from && n <= to);
  const every = Math.max(1, Math.ceil((inside.length - 1) / 8));
  return inside.filter((_, i) => i % every === 0 || i === inside.length - 1);
}
