/** Calibrations and back-tests as CSV: one line a figure or speed, errors in percent of what was measured. */
import type { BacktestResult, CalibrationResult } from '@valvetide/core';
import { csv, warningsCell } from './csv.ts';

/** A kind of figure by its unit, which stands in the heads alone: a column of mixed units is none to calculate with. */
const KINDS = [
  { end: 'Nm', is: (kind: string) => !kind.endsWith('speed') && !kind.startsWith('power') },
  { end: 'Kw', is: (kind: string) => !kind.endsWith('speed') && kind.startsWith('power') },
  { end: 'Rpm', is: (kind: string) => kind.endsWith('speed') },
] as const;

/** One line per figure that was fitted; columns of units that no figure has are left out. */
export function calibrationCsv(result: CalibrationResult): string {
  const { combination, points, standard, outcome, notes } = result;
  const kinds = KINDS.filter(({ is }) => points.some(({ kind }) => is(kind)));
  const header = [
    'combination',
    'figure',
    'rpm',
    ...kinds.flatMap(({ end }) => [`measured${end}`, `before${end}`, `after${end}`, `allowed${end}`]),
    'beforeErrorPct',
    'afterErrorPct',
    'correctionStandard',
    'outcome',
    'warnings',
  ];
  const rows = points.map(({ kind, rpm, measured, before, after, sigma }) => [
    combination,
    kind,
    rpm,
    ...kinds.flatMap(({ is }): (number | string)[] =>
      is(kind) ? [measured, before, after, sigma] : ['', '', '', ''],
    ),
    100 * (before / measured - 1),
    100 * (after / measured - 1),
    standard,
    outcome,
    warningsCell(notes),
  ]);
  return csv([header, ...rows]);
}

/** One line per speed. */
export function backtestCsv({ combination, points, calibration, outcome, notes }: BacktestResult): string {
  const header = [
    'combination',
    'rpm',
    'beforeMeasuredNm',
    'beforeForecastNm',
    'afterMeasuredNm',
    'afterForecastNm',
    'measuredGainPct',
    'forecastGainPct',
    'forecastGainSpreadPct',
    'errorPoints',
    'correctionStandard',
    'outcome',
    'warnings',
  ];
  const rows = points.map(({ rpm, before, after, measuredGain, forecastGain, spread }) => [
    combination,
    rpm,
    before.measuredNm,
    before.forecastNm,
    after.measuredNm,
    after.forecastNm,
    100 * measuredGain,
    100 * forecastGain,
    spread === null ? '' : 100 * spread,
    100 * (forecastGain - measuredGain),
    calibration.standard,
    outcome,
    warningsCell([...notes, ...calibration.notes]),
  ]);
  return csv([header, ...rows]);
}
