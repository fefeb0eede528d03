/** The result of choosing from a shelf: plain values, ready to print or to send. */
import type { Assumed, Warning } from '../combination/combination.ts';
import type { SpeedBand } from '../forecast/band.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { ShelfAim, ShelfLimits } from './shelf.ts';

/** What a build has from a group. */
export interface Taken {
  /** Name of the group. */
  readonly group: string;
  /** Name of the part or size; null: what the engine has. */
  readonly choice: string | null;
}

/** A build with its figures, all of them forecast as such. */
export interface PricedBuild {
  /** One a group, in the order of the shelf. */
  readonly choices: readonly Taken[];
  /** Gain by the aims over the engine as it is, their weighted mean [%]. */
  readonly gainPct: number;
  /** Money, in the currency of the shelf; null where a part does not say. */
  readonly cost: number | null;
  /** Working hours; null where a part does not say. */
  readonly hours: number | null;
}

/** One of the best. */
export interface ChosenBuild extends PricedBuild {
  /** Gain by each aim [%]. */
  readonly byAim: readonly number[];
  /** Gain in mean power over all the speeds that count [kW]. */
  readonly bandGainKw: number;
  /** One standard deviation of the gain [%]; null where an abort came first, and for the engine as it is. */
  readonly sigmaPct: number | null;
  /** Chance that the gain is above nothing [-]; null as `sigmaPct`. */
  readonly chanceOfGain: number | null;
  /** From 1; builds of one group can't be told apart. */
  readonly tieGroup: number;
  /** Most octane that a speed asks for, (R + M) / 2 [-]. */
  readonly octaneRequired: number;
  /** Mean piston speed at the last speed [m/s]. */
  readonly pistonSpeedMs: number;
  /** Warnings that the engine as it is does not raise, or raises less. */
  readonly cautions: readonly string[];
}

/** What the alternatives of a group do by themselves. */
export interface GroupEffect {
  /** Name of the group. */
  readonly group: string;
  /** Each alternative's effect by itself, beside the mean of the group [%]. */
  readonly effects: readonly { readonly choice: string | null; readonly effectPct: number }[];
  /** Largest less smallest effect [%]. */
  readonly rangePct: number;
}

/** How far the search went. */
export interface SearchAccount {
  /** Builds on the shelf, whether or not they may be had. */
  readonly builds: number;
  /** Of these, within the limits of money, hours and fields; null where there are too many to count. */
  readonly withinLimits: number | null;
  /** Parts, sizes and groups left as they are that no build within the limits has. */
  readonly never: readonly Taken[];
  /** Builds that were forecast at every speed that counts. */
  readonly forecast: number;
  /** Of these, builds that broke a limit of the combination's file, asked for too much octane, or lost a speed. */
  readonly refused: number;
  /** Builds whose parts can't be had together, found without a forecast. */
  readonly impossible: number;
  /** Short forecasts for what is not known of the best. */
  readonly forUncertainty: number;
  /** Every build that may be had was forecast. */
  readonly enumerated: boolean;
  /** Builds to be expected among those never forecast that beat the last of the best; 0 where all were forecast. */
  readonly missing: number;
  /** By how much the model misses a build that it was not fitted to, root mean square [%]; null without a model. */
  readonly modelErrorPct: number | null;
}

/** What was chosen from a shelf. */
export interface ChoiceResult {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** Name of the combination. */
  readonly combination: string;
  /** Seed of the search and of the draws. */
  readonly seed: number;
  /** False where an abort came before the end: what there is is shown. */
  readonly complete: boolean;
  /** What makes a build good. */
  readonly aims: readonly ShelfAim[];
  /** What a build must keep. */
  readonly limits: ShelfLimits;
  /** All the speeds that count. */
  readonly band: SpeedBand;
  /** Speeds that were forecast [1/min]. */
  readonly rpm: readonly number[];
  /** The engine as it is; null where an abort came first or a speed was lost. */
  readonly baseline: { readonly bandPowerKw: number; readonly bandTorqueNm: number } | null;
  /** Best first. */
  readonly builds: readonly ChosenBuild[];
  /** What all builds have in common that may be as good as the best. */
  readonly shared: readonly Taken[];
  /** The most gain for each sum of money, among builds that were forecast; rising in both. */
  readonly frontier: readonly PricedBuild[];
  /** What matters most first. */
  readonly effects: readonly GroupEffect[];
  /** What was looked at and what was not. */
  readonly search: SearchAccount;
  /** What the file left out. */
  readonly assumed: readonly Assumed[];
  /** What to know before the figures are trusted. */
  readonly warnings: readonly Warning[];
  /** Speeds that were lost, of any build. */
  readonly leftOut: readonly LeftOut[];
}
