/** Speeds of a forecast for which nobody named any but a band that counts. */
import type { Inspection, SpeedBand } from '@valvetide/core';
import { parseRpm } from '../input/parseRpm.ts';

/** The usual speeds, with as many steps more as it takes to cover a band; past the last that anybody asks for, the band's own end. */
export function speedsOver(
  { fromRpm, toRpm, stepRpm, mostRpm }: Inspection['band'],
  band: SpeedBand | null,
): number[] {
  const below = band === null ? 0 : Math.max(0, Math.ceil((fromRpm - band.fromRpm) / stepRpm));
  const above = band === null ? 0 : Math.max(0, Math.ceil((band.toRpm - toRpm) / stepRpm));
  const first = Math.max(200, fromRpm - below * stepRpm);
  const speeds = parseRpm(`${first}:${toRpm + above * stepRpm}:${stepRpm}`);
  if (band === null) return speeds;
  const most = Math.max(mostRpm, band.toRpm);
  return speeds.map((rpm) => Math.min(rpm, most));
}
