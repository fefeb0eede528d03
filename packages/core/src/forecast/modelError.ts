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

/**
 * What is believed before any engine is looked at, counted as so many engines: one-dimensional codes that were fitted to
 * nothing miss torque and power by about 5 %, the speeds of their peaks by 300 rpm, gains by 1 % (from memory). So few engines with
 * sheets are published that their scatter alone would say next to nothing.
 */
export const BELIEVED_ERROR: ModelError & { readonly engines: number } = {
  torque: 0.05,
  power: 0.05,
  torqueSpeed: 300,
  powerSpeed: 300,
  gain: 0.01,
  engines: 4,
};

/**
 * Belief and published engines together: the square is (engines believed x belief squared + sum of squared misses) / (engines believed +
 * engines seen), the mean of a scaled inverse chi-squared belief (Gelman and others, Bayesian Data Analysis, section 2.6; from
 * memory). A slow test works the figures out again from the published engines.
 */
export function pooledError(believed: number, misses: readonly number[], engines: number): number {
  const squares = misses.reduce((sum, miss) => sum + miss * miss, engines * believed * believed);
  return Math.sqrt(squares / (engines + misses.length));
}

/**
 * The figures in use. Engines with sheets: two states of one eight, and four gains told of another; what was not known of them is
 * left in. Estimates: production engines of 1985 and 1993 at their rated speed, less what was not known of them; torque, of which
 * no rating is tabled, is taken as the power, and the rest from the engines with sheets.
 */
export const MODEL_ERRORS: Readonly<Record<EvidenceKind, ModelError>> = {
  sheets: { torque: 0.043, power: 0.057, torqueSpeed: 430, powerSpeed: 290, gain: 0.008 },
  estimates: { torque: 0.095, power: 0.095, torqueSpeed: 430, powerSpeed: 290, gain: 0.008 },
};
