/** What a backtest gives. */
import type { PullComparison } from '../dyno/pullComparison.ts';
import type { HeldBack } from '../dyno/steadySheet.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { CalibrationResult } from './calibrationResult.ts';

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
  /** What was added to each sheet to bring it to steady running; null for nothing. */
  readonly heldBack: { readonly before: HeldBack | null; readonly after: HeldBack | null };
  /** Sheet against sheet, both of steady running; the band and the least difference the pulls resolve are in it. */
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
