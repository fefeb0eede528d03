/** The result of ranking changes: plain values, ready to print or to send. */
import type { Assumed, Warning } from '../combination/combination.ts';
import type { SpeedBand } from '../forecast/band.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { Verdict } from './interaction.ts';
import type { TestStep } from './testOrder.ts';

/** A change, alone on the baseline. Gains are of power averaged over the band unless they say otherwise. */
export interface RankedChange {
  readonly name: string;
  readonly bandGainPct: number;
  readonly bandGainKw: number;
  /** One standard deviation of the gain [%]; null where an abort came first, as with the chances. */
  readonly sigmaPct: number | null;
  readonly chanceOfGain: number | null;
  /** Chance that the gain is large enough for the dyno to tell. */
  readonly chanceResolvable: number | null;
  readonly peakPowerGainPct: number;
  readonly peakTorqueGainPct: number;
  /** Largest loss of torque at any speed looked at; 0 where there is none. */
  readonly worstLossPct: number;
  readonly worstLossRpm: number | null;
  /** From 1; within a group the order is not settled. */
  readonly tieGroup: number;
  /** Warnings that the baseline does not raise, or raises less. */
  readonly cautions: readonly string[];
  /** Pulls a side after which the gain stands out; null where nobody makes that many. */
  readonly pullsNeeded: number | null;
  /** The unknown that brings most of the gain's uncertainty; null where there is none to name. */
  readonly mattersMost: MattersMost | null;
  readonly cost: number | null;
  readonly hours: number | null;
  readonly reversible: boolean;
  /** At every speed that was forecast, rising. */
  readonly bySpeed: readonly GainAtSpeed[];
}

/** A gain in torque at one speed. */
export interface GainAtSpeed {
  readonly rpm: number;
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
  readonly rpm: number;
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
  readonly a: string;
  readonly b: string;
  readonly togetherPct: number;
  /** Gain together less both gains alone [%]. */
  readonly interactionPct: number;
  readonly verdict: Verdict;
}

/** Several changes together, forecast as such. */
export interface RankedSet {
  readonly changes: readonly string[];
  readonly bandGainPct: number;
  readonly bandGainKw: number;
  /** Gains and pair interactions added up [%]; the forecast gain differs by what three do to each other. */
  readonly addedUpPct: number;
  /** Null where a member does not state it. */
  readonly cost: number | null;
  readonly hours: number | null;
  readonly cautions: readonly string[];
}

/** Changes ranked. */
export interface Ranking {
  readonly schemaVersion: 1;
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  readonly combination: string;
  readonly seed: number;
  /** False where an abort came before the end: what there is is shown. */
  readonly complete: boolean;
  readonly band: SpeedBand;
  /** Speeds that were forecast [1/min]. */
  readonly rpm: readonly number[];
  readonly dyno: {
    readonly repeatabilityPct: number;
    readonly pulls: number;
    readonly resolvablePct: number;
  };
  readonly baseline: {
    readonly bandPowerKw: number;
    readonly bandTorqueNm: number;
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
  /** The set with the largest gain that the budget bears. */
  readonly best: RankedSet | null;
  readonly order: readonly TestStep[];
  readonly assumed: readonly Assumed[];
  readonly warnings: readonly Warning[];
  /** Speeds that were lost, of any forecast the ranking took: a change with one is not ranked, an unknown with one not counted. */
  readonly leftOut: readonly LeftOut[];
}
