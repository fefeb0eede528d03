/** Measured and forecast pressures as CSV: one line a sensor and angle. */
import type { PressureComparison } from '@valvetide/core';
import { csv } from './csv.ts';

export function pressuresCsv({ overlays }: PressureComparison): string {
  const header = [
    'sheet',
    'rpm',
    'cylinder',
    'place',
    'fromValveMm',
    'crankDegAtdc',
    'measuredKpa',
    'forecastKpa',
    'lagDeg',
  ];
  return csv([
    header,
    ...overlays.flatMap(
      ({ sheet, rpm, cylinder, place, fromValveM, angleDeg, measuredPa, forecastPa, lagDeg }) =>
        angleDeg.map((angle, i) => [
          sheet,
          rpm,
          cylinder,
          place,
          1000 * fromValveM,
          angle,
          measuredPa[i] / 1000,
          forecastPa[i] / 1000,
          lagDeg ?? '',
        ]),
    ),
  ]);
}
