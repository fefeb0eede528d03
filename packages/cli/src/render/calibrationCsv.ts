/** Calibrations and back-tests as CSV: one line a figure or speed, errors in percent of what was measured. */
import type { BacktestPoint, BacktestResult, CalibrationResult } from '@valvetide/core';
import { type CsvColumn, csvTable, warningsCell } from './csv.ts';

/** A kind of figure by its unit, which stands in the heads alone: a column of mixed units is none to calculate with. */
const KINDS = [
  { end: 'Nm', is: (kind: string) => !kind.endsWith('speed') && !kind.startsWith('power') },
  { end: 'Kw', is: (kind: string) => !kind.endsWith('speed') && kind.startsWith('power') },
  { end: 'Rpm', is: (kind: string) => kind.endsWith('speed') },
] as const;

/** One line per figure that was fitted; columns of units that no figure has are left out. */
export function calibrationCsv(result: CalibrationResult): string {
  const { combination, points, standard, outcome, notes } = result;
  type Row = CalibrationResult['points'][number];
  const kinds = KINDS.filter(({ is }) => points.some(({ kind }) => is(kind)));
  const ofKinds = kinds.flatMap(({ end, is }): readonly CsvColumn<Row>[] => {
    const where =
      (value: (row: Row) => number): CsvColumn<Row>[1] =>
      (row) =>
        is(row.kind) ? value(row) : null;
    return [
      [`measured${end}`, where(({ measured }) => measured)],
      [`before${end}`, where(({ before }) => before)],
      [`after${end}`, where(({ after }) => after)],
      [`allowed${end}`, where(({ sigma }) => sigma)],
    ];
  });
  const columns: readonly CsvColumn<Row>[] = [
    ['combination', () => combination],
    ['figure', ({ kind }) => kind],
    ['rpm', ({ rpm }) => rpm],
    ...ofKinds,
    ['beforeErrorPct', ({ before, measured }) => 100 * (before / measured - 1)],
    ['afterErrorPct', ({ after, measured }) => 100 * (after / measured - 1)],
    ['correctionStandard', () => standard],
    ['outcome', () => outcome],
    ['warnings', () => warningsCell(notes)],
  ];
  return csvTable(columns, points);
}

/** One line per speed. */
export function backtestCsv({ combination, points, calibration, outcome, notes }: BacktestResult): string {
  const columns: readonly CsvColumn<BacktestPoint>[] = [
    ['combination', () => combination],
    ['rpm', ({ rpm }) => rpm],
    ['beforeMeasuredNm', ({ before }) => before.measuredNm],
    ['beforeForecastNm', ({ before }) => before.forecastNm],
    ['afterMeasuredNm', ({ after }) => after.measuredNm],
    ['afterForecastNm', ({ after }) => after.forecastNm],
    ['measuredGainPct', ({ measuredGain }) => 100 * measuredGain],
    ['forecastGainPct', ({ forecastGain }) => 100 * forecastGain],
    ['forecastGainSpreadPct', ({ spread }) => (spread === null ? null : 100 * spread)],
    ['errorPoints', ({ measuredGain, forecastGain }) => 100 * (forecastGain - measuredGain)],
    ['correctionStandard', () => calibration.standard],
    ['outcome', () => outcome],
    ['warnings', () => warningsCell([...notes, ...calibration.notes])],
  ];
  return csvTable(columns, points);
}
