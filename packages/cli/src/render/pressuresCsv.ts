/** Measured and forecast pressures as CSV: one line a sensor and angle. */
import type { PressureComparison } from '@valvetide/core';
import { type CsvColumn, csvTable } from './csv.ts';

export function pressuresCsv({ overlays }: PressureComparison): string {
  type Row = { readonly of: PressureComparison['overlays'][number]; readonly i: number };
  const columns: readonly CsvColumn<Row>[] = [
    ['sheet', ({ of }) => of.sheet],
    ['rpm', ({ of }) => of.rpm],
    ['cylinder', ({ of }) => of.cylinder],
    ['place', ({ of }) => of.place],
    ['fromValveMm', ({ of }) => 1000 * of.fromValveM],
    ['crankDegAtdc', ({ of, i }) => of.angleDeg[i]],
    ['measuredKpa', ({ of, i }) => of.measuredPa[i] / 1000],
    ['forecastKpa', ({ of, i }) => of.forecastPa[i] / 1000],
    ['lagDeg', ({ of }) => of.lagDeg],
  ];
  return csvTable(
    columns,
    overlays.flatMap((of) => of.angleDeg.map((_, i) => ({ of, i }))),
  );
}
