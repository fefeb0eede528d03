/** What each command writes with --json, as types: their JSON Schemas are made of these, comments included. */
import type {
  BacktestResult,
  CalibrationResult,
  ChoiceResult,
  ComparisonResult,
  Curve,
  ForecastSpread,
  HeldBack,
  Inspection,
  PressureComparison,
  RankingResult,
  RestrictionsResult,
  SpeedBand,
  SweepResult,
} from '@valvetide/core';
import type { MeasuredStep } from './render/againstMeasured.ts';
import type { BestGain } from './render/bestGain.ts';
import type { PullsResult } from './render/pullsText.ts';

/** A result that says which command wrote it. */
type By<Command extends string, Value> = Value & {
  /** The command that wrote it. */
  readonly command: Command;
};

/** Version and maker of what has neither of its own. */
interface Made {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
}

/** Means over the band that was asked for. */
interface BandFigures extends SpeedBand {
  /** Mean torque [N m]. */
  readonly torqueNm: number;
  /** Mean power [kW]. */
  readonly powerKw: number;
  /** Of the dyno sheet over the same speeds; null without one, or where it does not reach all of them. */
  readonly measured: { readonly torqueNm: number; readonly powerKw: number } | null;
}

/** The curve held to dyno sheets. */
interface MeasuredFigures {
  /** Name of the sheet. */
  readonly sheet: string;
  /** How many pulls it holds. */
  readonly pulls: number;
  /** What was added to it to bring it to steady running; null for nothing. */
  readonly heldBack: HeldBack | null;
  /** Root mean square of forecast over measured torque less one [%]. */
  readonly rootMeanSquarePct: number;
  /** Mean of the same [%]. */
  readonly meanPct: number;
  /** At each speed that the sheet reaches. */
  readonly bySpeed: readonly MeasuredStep[];
}

/** A curve, with what was asked for beside it. */
interface Forecast extends Curve {
  /** Means over `--band`. */
  readonly band?: BandFigures;
  /** Against `--pull`. */
  readonly measured?: MeasuredFigures;
  /** What isn't known of it; absent with `--quick`. */
  readonly spread?: ForecastSpread;
}

/** By the name of the command. */
export interface Results {
  readonly forecast: By<'forecast', Forecast>;
  readonly inspect: By<'inspect', Inspection & Made>;
  readonly compare: By<
    'compare',
    ComparisonResult & {
      /** How sure the best gain is; null where that could not be worked out, absent with `--quick` and between files. */
      readonly bestGain?: BestGain | null;
    }
  >;
  readonly sweep: By<'sweep', SweepResult>;
  readonly rank: By<'rank', RankingResult>;
  readonly choose: By<'choose', ChoiceResult>;
  readonly restrictions: By<'restrictions', RestrictionsResult>;
  readonly calibrate: By<'calibrate', CalibrationResult>;
  readonly backtest: By<'backtest', BacktestResult>;
  readonly pulls: By<'pulls', PullsResult>;
  readonly pressures: By<'pressures', PressureComparison>;
}

/** A result with the command that wrote it behind version and maker, as JSON has it. */
export function resultOf<Command extends keyof Results>(
  command: Command,
  result: Omit<Results[Command], 'command'>,
): object {
  const { schemaVersion, program, ...rest } = result;
  return { schemaVersion, program, command, ...rest };
}
