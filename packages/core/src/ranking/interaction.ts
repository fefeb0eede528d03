/** Whether two changes help or hinder each other. */

export type PairVerdict = 'helps' | 'hinders' | 'independent';

/**
 * Scatter of a mean over the band from cycles that only repeat within their tolerance, relative to the mean [%]. Torque
 * stands to about 0.005 %; the rest is room for meshes that change with the length of a pipe.
 */
export const FORECAST_NOISE_PCT = 0.02;

/**
 * Gain of both less the gains of each [%].
 *
 * @param gains - gains over the one baseline [%]
 */
export function interactionPct(gains: {
  readonly a: number;
  readonly b: number;
  readonly both: number;
}): number {
  return gains.both - gains.a - gains.b;
}

/**
 * Smallest interaction worth a name [%]: three times the scatter of a difference of four forecasts, a quarter of what isn't known
 * of the better known of the two gains, or what a dyno can tell from nothing, whichever is largest. Below the second it would
 * drown in the gains it is meant to correct, below the third nobody could see it.
 *
 * @param sigmas - standard deviations of the two gains [%]; null where not known
 * @param resolvablePct - smallest gain that the dyno shows [%]
 */
export function interactionThresholdPct(sigmas: readonly (number | null)[], resolvablePct: number): number {
  const known = sigmas.filter((sigma) => sigma !== null);
  const numerical = 3 * 2 * FORECAST_NOISE_PCT;
  return Math.max(numerical, resolvablePct, known.length === 0 ? 0 : Math.min(...known) / 4);
}

export function pairVerdictOf(interaction: number, threshold: number): PairVerdict {
  if (interaction > threshold) return 'helps';
  return interaction < -threshold ? 'hinders' : 'independent';
}
