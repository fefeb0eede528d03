/** What the model itself gets wrong, as the published engines show it: what remains however well an engine is known. */

/** What was known of the engine. `sheets`: flow sheet and cam card; `estimates`: sizes and valves alone. */
export type EvidenceKind = 'sheets' | 'estimates';

/** One standard deviation of each figure. */
export interface ModelError {
  /** Of peak torque, or of torque at a speed [-]. */
  readonly torque: number;
  /** Of peak power [-]. */
  readonly power: number;
  /** Of the speed of peak torque [1/min]. */
  readonly torqueSpeed: number;
  /** Of the speed of peak power [1/min]. */
  readonly powerSpeed: number;
  /** Of a gain by a change of parts, in power over the band [-]. */
  readonly gain: number;
}

/** Of engines with sheets: two states of one eight, and four gains told of another; what was not known of them is left in. */
const SHEETS: ModelError = { torque: 0.048, power: 0.047, torqueSpeed: 260, powerSpeed: 335, gain: 0.008 };

/**
 * The figures in use. Estimates: those of sheets, since an engine of which less is known is not forecast better; the production engines
 * of 1985 and 1993, at their rated speeds, leave no more than 2 % beside what was not known of them. But the speed of peak torque is as
 * engines with sheets had it before they came nearer, since no rating says that an engine known by its sizes is as near.
 */
export const MODEL_ERRORS: Readonly<Record<EvidenceKind, ModelError>> = {
  sheets: SHEETS,
  estimates: { ...SHEETS, torqueSpeed: 600 },
};
