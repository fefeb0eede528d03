/** The speeds of a forecast: those that were named, or those that suit the engine. */
import type { Combination, Inspection, SpeedBand } from '@valvetide/core';
import type { Core } from '../core.ts';
import { fixed } from '../render/fixed.ts';
import { pastThePeak } from './pastThePeak.ts';
import { speedsOver } from './speedsOver.ts';

/** Speeds [1/min], with a line that says why where nobody named them. */
export interface ForecastSpeeds {
  readonly rpm: readonly number[];
  /** Empty where they were named. */
  readonly chosen: string;
}

/** @param counts - the band that has to be covered where nobody named speeds; null for none */
export function forecastSpeeds(
  named: readonly number[] | undefined,
  combination: Combination,
  counts: SpeedBand | null,
  core: Core,
): ForecastSpeeds {
  if (named !== undefined) return { rpm: named, chosen: '' };
  const { band: usual } = core.inspectCombination(combination);
  const rpm = speedsPastPeak(combination, usual, counts, core);
  const step = rpm.length > 1 ? ` by ${fixed(rpm[1] - rpm[0])}` : '';
  return {
    rpm,
    chosen: `Band ${fixed(rpm[0])} to ${fixed(rpm[rpm.length - 1])} rpm${step}, ${usual.reason}`,
  };
}

/** Cells of twice the usual length tell on which side of its peak an engine is, in less than half the time. */
const ROUGH = { intakeCell: 0.05, exhaustCell: 0.1, fewest: 6 } as const;

/** The usual speeds, and on past the peak of power where it lies beyond them. */
function speedsPastPeak(
  combination: Combination,
  usual: Inspection['band'],
  counts: SpeedBand | null,
  core: Core,
): readonly number[] {
  const powerAt = (rpm: number): number | null => {
    const [point] = core.forecast(combination, { rpm: [rpm], mesh: ROUGH, onlyCompared: true }).points;
    return point.status === 'lost' ? null : point.powerKw;
  };
  return pastThePeak(speedsOver(usual, counts), usual.mostRpm, powerAt);
}
