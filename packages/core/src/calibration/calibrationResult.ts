/** What a calibration comes to. Plain and serialisable. */
import type { Calibration } from '../combination/combination.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';
import type { Knob, KnobName } from './knobs.ts';
import type { TriedSuspect } from './suspects.ts';

/** That the sheets disagree, and what to look at first. */
export interface Disagreement {
  /** Knobs that would have to go further than their limits. */
  readonly knobs: readonly KnobName[];
  readonly message: string;
  /** What to check, likeliest first, in words. */
  readonly culprits: readonly string[];
  /** What was tried and would explain something, likeliest first. */
  readonly tried: readonly TriedSuspect[];
}

/** A knob before and after. Values and spreads in `unit`. */
export interface FittedKnob {
  readonly name: KnobName;
  readonly path: Knob['path'];
  readonly what: string;
  readonly unit: string;
  readonly before: number;
  readonly spreadBefore: number;
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
  readonly kind: CalibrationTarget['aims'][number]['kind'];
  readonly rpm: number;
  readonly measured: number;
  readonly before: number;
  readonly after: number;
  /** One standard deviation that the fit allowed, same unit. */
  readonly sigma: number;
}

/** Knobs that pull the curve alike, two of them or one and several others together, so that the data cannot say which of them it is. */
export interface Confusion {
  readonly knobs: readonly KnobName[];
  /**
   * Of what is left uncertain [-]. Of two: near -1, one may rise for the other's fall. Of more: of the first with the best sum of
   * the others, never negative.
   */
  readonly correlation: number;
}

/** A calibration, whether it came off or not. Plain and serialisable. */
export interface CalibrationResult {
  readonly schemaVersion: 1;
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /**
   * `fitted`; `sheets disagree`: no credible knob gets there, and `calibration` holds what there is if that was accepted; `lost`:
   * of too many speeds there is no forecast; `incomplete`: aborted before a fit was reached.
   */
  readonly outcome: 'fitted' | 'sheets disagree' | 'lost' | 'incomplete';
  readonly combination: string;
  readonly sheets: readonly string[];
  readonly standard: CalibrationTarget['standard'];
  readonly knobs: readonly FittedKnob[];
  readonly correlation: readonly (readonly number[])[];
  readonly confusions: readonly Confusion[];
  readonly points: readonly FitPoint[];
  /** Root mean square of forecast over measured less one, torque and power figures [-]. */
  readonly error: { readonly before: number; readonly after: number };
  readonly repeatability: CalibrationTarget['repeatability'];
  readonly modelError: number;
  readonly disagreement: Disagreement | null;
  /** Forecasts it took. */
  readonly forecasts: number;
  readonly notes: readonly string[];
  /** Speeds that were lost with some value of the knobs, and so are not fitted. */
  readonly leftOut: readonly LeftOut[];
  /** What goes into the combination's file; null where nothing was fitted, or against a doubt that was not accepted. */
  readonly calibration: Calibration | null;
}
