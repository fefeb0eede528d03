/** The result of comparing combinations: plain values, ready to print or to send. */

import type { Fidelity } from '../assembly/symmetry.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import type { BandMean, BandWeighting, SpeedBand } from '../forecast/band.ts';
import type { Curve } from '../forecast/curve.ts';
import type { Breach } from '../forecast/limits.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';

/** What a study was asked, as it was carried out. */
export interface StudyBasis {
  /** Speeds that were forecast [1/min]. */
  readonly rpm: readonly number[];
  /** Speeds that count. */
  readonly band: SpeedBand;
  /** What counts equally in a mean. */
  readonly weighting: BandWeighting;
  /** Which cylinders marched. */
  readonly fidelity: Fidelity;
  /** The standard of the first combination; every curve is shown by it. */
  readonly correction: CorrectionStandard;
}

/** Combinations side by side, each against the first. */
export interface ComparisonResult extends StudyBasis {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** False where an abort came before the end: what there is is shown. */
  readonly complete: boolean;
  /** Name of the combination that the others are set against: the first. */
  readonly reference: string;
  /** The reference first, then the others in their order. */
  readonly entries: readonly ComparisonEntry[];
  /** Name of the entry with the highest mean power over the band that breaks no limit; null where there is none. */
  readonly best: string | null;
  /** Name of the entry with the highest mean power, whatever it breaks; null where none was forecast. */
  readonly highest: string | null;
  /** What makes these combinations hard to compare, for people. */
  readonly remarks: readonly string[];
  /** Speeds that were lost. A combination with one of them has no mean over the band, and no gain. */
  readonly leftOut: readonly LeftOut[];
}

/** One combination. What follows from the curve is null where an abort came first, or a speed of it was lost. */
export interface ComparisonEntry {
  /** Name it goes by. */
  readonly name: string;
  /** What was forecast; null where an abort came first. */
  readonly curve: Curve | null;
  /** Means over the band. */
  readonly band: BandMean | null;
  /** Area under the curve within the band. */
  readonly area: CurveArea | null;
  /** What it has more than the reference. */
  readonly gain: Gain | null;
  /** Warnings that the reference does not raise, or raises less. */
  readonly cautions: readonly string[];
  /** What the fuel or a stated limit forbids of it; empty: it is allowed. */
  readonly breaches: readonly Breach[];
}

/** Integrals over speed. */
export interface CurveArea {
  /** Torque over speed [N m/min]. */
  readonly torqueNmRpm: number;
  /** Power over speed [kW/min]. */
  readonly powerKwRpm: number;
}

/** A combination against the reference. */
export interface Gain {
  /** Of the means over the band. */
  readonly band: Difference;
  /** Of the peaks, wherever they are. */
  readonly peakTorquePct: number;
  /** Highest power against that of the reference [%]. */
  readonly peakPowerPct: number;
  /** Speed by speed, rising. */
  readonly byRpm: readonly SpeedDifference[];
  /** The speed with the largest loss of torque, in and out of the band; null where nothing is lost. */
  readonly worstLoss: SpeedDifference | null;
  /** The speed with the largest gain of torque; null where nothing is gained. */
  readonly largestGain: SpeedDifference | null;
}

/** Positive where more than the reference. */
export interface Difference {
  /** Torque more than the reference [N m]. */
  readonly torqueNm: number;
  /** The same [%]. */
  readonly torquePct: number;
  /** Power more than the reference [kW]. */
  readonly powerKw: number;
  /** The same [%]. */
  readonly powerPct: number;
}

/** The difference at one speed. */
export interface SpeedDifference extends Difference {
  /** Crank speed [1/min]. */
  readonly rpm: number;
}
