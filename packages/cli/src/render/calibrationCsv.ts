/** Calibrations and back-tests as CSV: one line a figure or speed, errors in percent of what was measured. */
import type { BacktestResult, CalibrationResult } from '@valvetide/core';
import { csv } from './csv.ts';

const UNIT = { torque: 'Nm', power: 'kW', speed: 'rpm' } as const;

/** One line per figure that was fitted. */
export function calibrationCsv({ points, standard, outcome }: CalibrationResult): string {
  const header = [
    'figure',
    'rpm',
    'unit',
    'measured',
    'before',
    'after',
    'beforeErrorPct',
    'afterErrorPct',
    'allowedSigma',
    'correctionStandard',
    'outcome',
  ];
  const rows = points.map(({ kind, rpm, measured, before, after, sigma }) => [
    kind,
    rpm,
    UNIT[kind.endsWith('speed') ? 'speed' : kind.startsWith('power') ? 'power' : 'torque'],
    measured,
    before,
    after,
    100 * (before / measured - 1),
    100 * (after / measured - 1),
    sigma,
    standard,
    outcome,
  ]);
  return csv([header, ...rows]);
}

/** One line per speed. */
export function backtestCsv({ points, calibration, outcome }: BacktestResult): string {
  const header = [
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
  ];
  const rows = points.map(({ rpm, before, after, measuredGain, forecastGain, spread }) => [
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
  ]);
  return csv([header, ...rows]);
}
