/** What a fit to dyno sheets leaves in a combination. */

/** What a fit to dyno sheets left known of the fields it moved. */
export interface Calibration {
  /** Names of the sheets, or words such as `peak figures`. */
  readonly sheets: readonly string[];
  /** The moved fields, one to six. */
  readonly knobs: readonly CalibratedKnob[];
  /** Correlation of the knobs' remaining errors, rows and columns in the order of `knobs` [-]. */
  readonly correlation: readonly (readonly number[])[];
  /** What the dyno shows over what the engine gives, and one standard deviation [-]; null where that was not fitted. */
  readonly dyno: { readonly reads: number; readonly spread: number } | null;
  /** Why the fit is doubtful though it was accepted; null where nothing speaks against it. */
  readonly doubt: string | null;
}

/** A field that was fitted. Its value stands in its own place of the file; here is how sure it is. */
export interface CalibratedKnob {
  /** Path of the field, dots between the names. */
  readonly path: string;
  /** The fitted value, in `unit`. */
  readonly value: number;
  /** Unit as shown to people; empty for a pure number. */
  readonly unit: string;
  /** One standard deviation after the fit, same unit: takes the place of the estimate's own. */
  readonly spread: number;
}
