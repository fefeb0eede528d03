/** The result of ranking changes: plain values, ready to print or to send. */
import type { Assumed, Warning } from '../combination/combination.ts';
import type { SpeedBand } from '../forecast/band.ts';
import type { Breach } from '../forecast/limits.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { MeasureFirst } from './firstMeasurement.ts';
import type { PairVerdict } from './interaction.ts';
import type { TestPlan } from './testOrder.ts';

/** A change, alone on the baseline. Gains are of power averaged over the band unless they say otherwise. */
export interface RankedChange {
  /** Name it goes by. */
  readonly name: string;
  /** Gain over the baseline [%]. */
  readonly bandGainPct: number;
  /** Gain over the baseline [kW]. */
  readonly bandGainKw: number;
  /** One standard deviation of the gain [%]; null where an abort came first, as with the chances. */
  readonly sigmaPct: number | null;
  /** Chance that the gain is above nothing [-]; null as `sigmaPct`. */
  readonly chanceOfGain: number | null;
  /** Chance that the gain is large enough for the dyno to tell. */
  readonly chanceResolvable: number | null;
  /** Gain of the highest power, wherever it is [%]. */
  readonly peakPowerGainPct: number;
  /** Gain of the highest torque, wherever it is [%]. */
  readonly peakTorqueGainPct: number;
  /** Largest loss of torque at any speed looked at; 0 where there is none. */
  readonly worstLossPct: number;
  /** Speed of that loss [1/min]; null where there is none. */
  readonly worstLossRpm: number | null;
  /** From 1; within a group the order is not settled. */
  readonly tieGroup: number;
  /** Warnings that the baseline does not raise, or raises less. */
  readonly cautions: readonly string[];
  /** What the fuel or a stated limit forbids of it and not, or less, of the engine as it is; empty: it is allowed. */
  readonly breaches: readonly Breach[];
  /** What the forecast leaves out of it, for people, where that may well be all of its effect: the gain then says nothing. Null: it counts. */
  readonly notModelled: string | null;
  /** Gain for each hour of fitting [kW/h]; null where no hours are stated, or it gains nothing. */
  readonly gainKwPerHour: number | null;
  /** Gain for each unit of money [kW]; null where no cost is stated, or it gains nothing. */
  readonly gainKwPerCost: number | null;
  /** Pulls a side after which the gain stands out; null where nobody makes that many. */
  readonly pullsNeeded: number | null;
  /** The unknown that brings most of the gain's uncertainty; null where there is none to name, or the gain says nothing. */
  readonly mattersMost: MattersMost | null;
  /** Share of the gain's variance that is the model's own error, which nothing measured on the engine takes away [-]; null where it was not worked out. */
  readonly modelShare: number | null;
  /** Money, in whatever currency the changes state; null where not stated. */
  readonly cost: number | null;
  /** Working hours; null where not stated. */
  readonly hours: number | null;
  /** Whether it can come off again. */
  readonly reversible: boolean;
  /** At every speed that was forecast, rising. */
  readonly bySpeed: readonly GainAtSpeed[];
}

/** A gain in torque at one speed. */
export interface GainAtSpeed {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Torque gained over the baseline [N m]. */
  readonly gainNm: number;
  /** Of the baseline's torque there [%]. */
  readonly gainPct: number;
  /** One standard deviation of `gainNm`; null outside the band, and where an abort came first. */
  readonly sigmaNm: number | null;
  /** One standard deviation of `gainPct`. */
  readonly sigmaPct: number | null;
}

/** The baseline's torque at one speed. */
export interface TorqueAtSpeed {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Torque [N m]. */
  readonly torqueNm: number;
  /** One standard deviation, errors that cancel in a gain included; null outside the band, and where an abort came first. */
  readonly sigmaNm: number | null;
}

/** An unknown and what it does to a gain. */
export interface MattersMost {
  /** Field of the file. */
  readonly path: string;
  /** What it is, where a path alone would not say. */
  readonly what: string;
  /** Share of the variance of the gain [-]. */
  readonly share: number;
  /** What one standard deviation of it does to the gain [%]. */
  readonly perSigmaPct: number;
}

/** Two changes together. */
export interface RankedPair {
  /** One of them: that with the larger gain. */
  readonly a: string;
  /** The other. */
  readonly b: string;
  /** Gain of both over the baseline [%]. */
  readonly togetherPct: number;
  /** Gain together less both gains alone [%]. */
  readonly interactionPct: number;
  /** Whether they help each other, hinder each other, or do neither. */
  readonly verdict: PairVerdict;
  /** As of a change alone, at the speeds of the interactions. */
  readonly breaches: readonly Breach[];
}

/** Several changes together, forecast as such. */
export interface RankedSet {
  /** Names of the changes. */
  readonly changes: readonly string[];
  /** Gain over the baseline, as forecast together [%]. */
  readonly bandGainPct: number;
  /** Gain over the baseline, as forecast together [kW]. */
  readonly bandGainKw: number;
  /** Gains and pair interactions added up [%]; the forecast gain differs by what three do to each other. */
  readonly addedUpPct: number;
  /** Null where a member does not state it. */
  readonly cost: number | null;
  /** Working hours; null where not stated. */
  readonly hours: number | null;
  /** Warnings that the baseline does not raise, or raises less. */
  readonly cautions: readonly string[];
  /** As of a change alone. */
  readonly breaches: readonly Breach[];
}

/** Changes ranked. */
export interface RankingResult {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** Name of the combination. */
  readonly combination: string;
  /** Seed of the draws. */
  readonly seed: number;
  /** False where an abort came before the end: what there is is shown. */
  readonly complete: boolean;
  /** Speeds that count. */
  readonly band: SpeedBand;
  /** Speeds that were forecast [1/min]. */
  readonly rpm: readonly number[];
  /** The dyno that is to test, and the smallest gain it shows. */
  readonly dyno: {
    readonly repeatabilityPct: number;
    readonly pulls: number;
    readonly resolvablePct: number;
  };
  /** The engine as it is; null where an abort came first or a speed was lost. */
  readonly baseline: {
    readonly bandPowerKw: number;
    readonly bandTorqueNm: number;
    /** What the fuel or a stated limit forbids of the engine as it is. */
    readonly breaches: readonly Breach[];
    /** One standard deviation of the baseline's own power, errors that cancel in a gain included [%]. */
    readonly sigmaPct: number | null;
    /** At every speed that was forecast, rising. */
    readonly bySpeed: readonly TorqueAtSpeed[];
  } | null;
  /** Speeds that spreads were worked out at [1/min]: straight between them, held at the nearest out to the ends of the band. */
  readonly spreadRpm: readonly number[];
  /** Largest gain first. */
  readonly changes: readonly RankedChange[];
  /** Pairs that can be had together, strongest interaction first. */
  readonly pairs: readonly RankedPair[];
  /** Everything that can be had together; of changes that exclude each other, the best. */
  readonly together: RankedSet | null;
  /** The set with the largest gain that the budget bears and that breaks no limit. */
  readonly best: RankedSet | null;
  /** The measurement that would settle best which change leads, or how much the one that leads gains; null where none stands out. */
  readonly measureFirst: MeasureFirst | null;
  /** A sensible order of tests, and what it takes. */
  readonly order: TestPlan;
  /** What the file left out. */
  readonly assumed: readonly Assumed[];
  /** What to know before the figures are trusted. */
  readonly warnings: readonly Warning[];
  /** Speeds that were lost, of any forecast the ranking took: a change with one is not ranked, an unknown with one not counted. */
  readonly leftOut: readonly LeftOut[];
}
