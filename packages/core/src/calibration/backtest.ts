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
import { type BandWeighting, bandMean, type SpeedBand } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import { isMarched, type LeftOut, leftOutOf } from '../forecast/wholeCurve.ts';
import { type GainSpread, gainSpread } from '../ranking/gainSpread.ts';
import type { CombinationDocument } from '../reading/combinationDocument.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { type JobControl, runJobsHere, type StudyJob } from '../studies/job.ts';
import { type CalibrateOptions, calibrate } from './calibrate.ts';
import type { CalibrationResult } from './calibrationResult.ts';
import { dayOf, sheetTarget } from './calibrationTarget.ts';
import { asObserved } from './fitRun.ts';

/** What a calibration takes, and the band to judge the change over. */
export interface BacktestOptions extends CalibrateOptions {
  /** Default: all speeds both sheets share. */
  readonly band?: SpeedBand | undefined;
  /** What counts equally in a mean; default `speed`. */
  readonly weighting?: BandWeighting | undefined;
}

/** One speed, torque under the sheets' standard. */
export interface BacktestPoint {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Torque of the engine as it was [N m]. */
  readonly before: { readonly measuredNm: number; readonly forecastNm: number };
  /** Torque of the changed engine [N m]. */
  readonly after: { readonly measuredNm: number; readonly forecastNm: number };
  /** After over before less one [-]. */
  readonly measuredGain: number;
  /** The same of the forecasts [-]. */
  readonly forecastGain: number;
  /** One standard deviation of the forecast gain [-]; null outside the band, and where it could not be worked out. */
  readonly spread: number | null;
}

/** How a known change was forecast. Plain and serialisable. */
export interface BacktestResult {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** `forecast`; or the reason why the change was not. `lost`: too many speeds were. */
  readonly outcome: 'forecast' | 'sheets disagree' | 'lost' | 'incomplete';
  /** Name of the combination. */
  readonly combination: string;
  /** Names of the changes. */
  readonly changes: readonly string[];
  /** The fit to the sheet before. */
  readonly calibration: CalibrationResult;
  /** Sheet against sheet; the band and the least difference the pulls resolve are in it. */
  readonly measured: PullComparison;
  /** By speed, rising; empty where nothing was forecast. */
  readonly points: readonly BacktestPoint[];
  /** Mean power over the band, after over before less one [-]; null where nothing was forecast. */
  readonly gain: {
    readonly measured: number;
    readonly forecast: number;
    /**
     * One standard deviation of the forecast gain from what isn't known of engine and parts, and from what the calibration
     * left open; null where it could not be worked out.
     */
    readonly spread: number | null;
    /** Forecast less measured. */
    readonly error: number;
    /** `within`: nearer than the pulls resolve; `near`: so with twice the spread added; `beyond` otherwise. */
    readonly verdict: 'within' | 'near' | 'beyond';
    readonly rightSign: boolean;
  } | null;
  /** What was repaired or taken for granted, for people. */
  readonly notes: readonly string[];
  /** Speeds that were lost and count neither before nor after, those of the calibration among them. */
  readonly leftOut: readonly LeftOut[];
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
  const { band, weighting, run = runJobsHere } = options;
  const sheet = sheetsOf(baseline.sheets, options.sheet);
  const measured = comparePulls(before, after, { band, weighting });
  // The changes are tried before hours of forecasts.
  const trial = changedBy(baseline.stated, changes, sheet);
  if (!trial.ok) return trial;
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
    measured,
    notes: [...new Set([...before.notes, ...after.notes])],
    leftOut: calibration.leftOut,
  };
  const fitted = calibrated.value.document;
  if (fitted === null) {
    const outcome = calibration.outcome === 'fitted' ? 'incomplete' : calibration.outcome;
    return { ok: true, value: { ...base, outcome, points: [], gain: null } };
  }
  const asked = speedsOf(measured);
  // Both sheets are of one dyno.
  const reads = calibration.calibration?.dyno?.reads ?? 1;
  const days = { before: dayOnDyno(before, reads), after: dayOnDyno(after, reads) };
  const pair = changedBy(fitted, changes, sheet);
  if (!pair.ok) return pair;
  const jobs: StudyJob[] = [
    { combination: asObserved(pair.value.before, days.before), rpm: asked },
    { combination: asObserved(pair.value.after, days.after), rpm: asked },
  ];
  const curves = await run(jobs, controlAfter(calibration.forecasts, options));
  const first = pairOf(curves, days);
  const spreads =
    first === null
      ? null
      : await gainSpread(pair.value.baseline, joined(changes), measured.band, {
          ...controlAfter(calibration.forecasts + jobs.length, options),
          run,
          sheet,
        });
  const leftOut = [
    ...base.leftOut,
    ...leftOutOf('before', curves[0] ?? null),
    ...leftOutOf('after', curves[1] ?? null),
  ];
  if (first === null || options.signal?.aborted === true) {
    const outcome = curves.includes(null) || options.signal?.aborted === true ? 'incomplete' : 'lost';
    return { ok: true, value: { ...base, outcome, points: [], gain: null, leftOut } };
  }
  const points = pointsOf(first, measured, spreads);
  const gain = judged(first, measured, spreads?.band ?? null);
  return { ok: true, value: { ...base, outcome: 'forecast', points, gain, leftOut } };
}

/** Each speed that was forecast on both sides, beside what was measured there. */
function pointsOf(
  { before, after }: Pair,
  measured: PullComparison,
  spreads: GainSpread | null,
): readonly BacktestPoint[] {
  return after.map(({ rpm, torqueNm }, i): BacktestPoint => {
    const there = measured.points.find((point) => point.rpm === rpm) ?? measured.points[0];
    return {
      rpm,
      before: { measuredNm: there.beforeNm, forecastNm: before[i].torqueNm },
      after: { measuredNm: there.afterNm, forecastNm: torqueNm },
      measuredGain: there.gain,
      forecastGain: torqueNm / before[i].torqueNm - 1,
      spread: spreads?.at(rpm)?.ratio ?? null,
    };
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
function pairOf(
  [before = null, after = null]: readonly (Curve | null)[],
  days: Readonly<Record<'before' | 'after', { readonly factor: number }>>,
): Pair | null {
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
  const chosen = inside.filter((_, i) => i % every === 0 || i === inside.length - 1);
  return chosen;
}
