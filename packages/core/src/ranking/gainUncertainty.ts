/** How sure one gain is, and what would make it surest, as plain values. */
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { SpeedBand } from '../forecast/band.ts';
import type { MeasureFirst } from './firstMeasurement.ts';
import { type GainSpreadOptions, gainSpread } from './gainSpread.ts';

/** What is not known of a gain. */
export interface GainUncertainty {
  /** One standard deviation of the gain in mean power over the band [%]. */
  readonly sigmaPct: number;
  /** The measurement that would make it surest; null where none stands out. */
  readonly measureFirst: MeasureFirst | null;
}

/**
 * What is not known of a change's gain, from some fifty coarse forecasts. Null where an abort came first, the change can't be applied or
 * a march that it takes was lost.
 *
 * @example
 * ```ts
 * const uncertainty = await gainUncertainty(baseline, change, { fromRpm: 4000, toRpm: 6000 });
 * console.log(uncertainty?.sigmaPct, uncertainty?.measureFirst?.path);
 * ```
 */
export async function gainUncertainty(
  baseline: Baseline,
  change: Change,
  band: SpeedBand,
  options: GainSpreadOptions = {},
): Promise<GainUncertainty | null> {
  const spread = await gainSpread(baseline, change, band, options);
  if (spread === null || spread.band === null) return null;
  return { sigmaPct: 100 * spread.band, measureFirst: spread.measureFirst };
}
