/** What a calibration comes to. Plain and serialisable. */
import type { Calibration } from '../combination/calibration.ts';
import type { HeldBack } from '../dyno/steadySheet.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';
import type { Knob, KnobName } from './knobs.ts';
import type { TriedSuspect } from './suspectTrial.ts';

/** That the sheets disagree, and what to look at first. */
export interface Disagreement {
  /** Knobs that would have to go further than their limits. */
  readonly knobs: readonly KnobName[];
  /** What disagrees, for people. */
  readonly message: string;
  /** What to check, likeliest first, in words. */
  readonly culprits: readonly string[];
  /** What was tried and would explain something, likeliest first. */
  readonly tried: readonly TriedSuspect[];
}

/** A knob before and after. Values and spreads in `unit`. */
export interface FittedKnob {
  /** Short name of the knob. */
  readonly name: KnobName;
  /** Field of the file that it sets. */
  readonly path: Knob['path'];
  /** What it is, for people. */
  readonly what: string;
  /** Unit of the values as shown to people; empty for a pure number. */
  readonly unit: string;
  /** Value before the fit, in `unit`. */
  readonly before: number;
  /** One standard deviation of what was believed before the fit, in `unit`. */
  readonly spreadBefore: number;
  /** Value after the fit, in `unit`. */
  readonly after: number;
  /** One standard deviation of what is left uncertain. */
  readonly spread: number;
  /** `yes`: the data at least halved the uncertainty; `hardly`: they left four fifths of it. */
  readonly told: 'yes' | 'partly' | 'hardly';
  /** Ran into its limit, and the data ask for more. */
  readonly atLimit: boolean;
}

/** One figure measured, with the forecast before and after the fit; unit by `kind`: N m, kW or 1/min. */
export interface FitPoint {
  /** Which figure it is. */
  readonly kind: CalibrationTarget['aims'][number]['kind'];
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** As measured, in the unit of its kind. */
  readonly measured: number;
  /** As forecast before the fit, same unit. */
  readonly before: number;
  /** As forecast after the fit, same unit. */
  readonly after: number;
  /** One standard deviation that the fit allowed, same unit. */
  readonly sigma: number;
}

/** Knobs that pull the curve alike, two of them or one and several others together, so that the data cannot say which of them it is. */
export interface Confusion {
  /** The two of them. */
  readonly knobs: readonly KnobName[];
  /**
   * Of what is left uncertain [-]. Of two: near -1, one may rise for the other's fall. Of more: of the first with the best sum of
   * the others, never negative.
   */
  readonly correlation: number;
}

/** The knob whose own measurement would settle most of what the fit leaves open. */
export interface WorthKnowing {
  /** Which one. */
  readonly knob: KnobName;
  /** Field of the file that it sets. */
  readonly path: Knob['path'];
  /** One standard deviation of mean power over the measured speeds from what the fit leaves open [%]. */
  readonly sigmaPct: number;
  /** The same once that knob is measured [%]. */
  readonly leftPct: number;
}

/** A calibration, whether it came off or not. Plain and serialisable. */
export interface CalibrationResult {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /**
   * `fitted`; `sheets disagree`: no credible knob gets there, and `calibration` holds what there is if that was accepted; `lost`:
   * of too many speeds there is no forecast; `incomplete`: aborted before a fit was reached.
   */
  readonly outcome: 'fitted' | 'sheets disagree' | 'lost' | 'incomplete';
  /** Name of the combination. */
  readonly combination: string;
  /** Names of the sheets that were fitted. */
  readonly sheets: readonly string[];
  /** Correction standard that the figures are shown by. */
  readonly standard: CalibrationTarget['standard'];
  /** Each knob before and after, in the order that was asked for. */
  readonly knobs: readonly FittedKnob[];
  /** Correlation of what is left uncertain of the knobs, in their order [-]. */
  readonly correlation: readonly (readonly number[])[];
  /** Pairs of knobs that these figures can not tell apart. */
  readonly confusions: readonly Confusion[];
  /** What to measure first; null where nothing stands out, or peak figures alone were fitted. */
  readonly measureFirst: WorthKnowing | null;
  /** Each figure with both forecasts of it. */
  readonly points: readonly FitPoint[];
  /** Root mean square of forecast over measured less one, torque and power figures [-]. */
  readonly error: { readonly before: number; readonly after: number };
  /** How well the pulls repeat. */
  readonly repeatability: CalibrationTarget['repeatability'];
  /** Error a forecast keeps whatever its knobs, one standard deviation [-]. */
  readonly modelError: number;
  /** What was added to the measured figures to bring them to steady running; null for nothing. */
  readonly heldBack: HeldBack | null;
  /** Why no credible knob gets there; null where one does. */
  readonly disagreement: Disagreement | null;
  /** Forecasts it took. */
  readonly forecasts: number;
  /** What was repaired or taken for granted, for people. */
  readonly notes: readonly string[];
  /** Speeds that were lost with some value of the knobs, and so are not fitted. */
  readonly leftOut: readonly LeftOut[];
  /** What goes into the combination's file; null where nothing was fitted, or against a doubt that was not accepted. */
  readonly calibration: Calibration | null;
}
