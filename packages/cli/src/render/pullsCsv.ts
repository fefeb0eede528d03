/** Pulls as CSV: one line a pull and speed, then the mean of each sheet. */
import type { DynoSheet, PullSummary } from '@valvetide/core';
import { csv, warningsCell } from './csv.ts';
import { SHOWN } from './units.ts';

export function pullsCsv(sheets: readonly DynoSheet[], summaries: readonly PullSummary[]): string {
  const header = [
    'combination',
    'sheet',
    'pull',
    'rpm',
    'torqueNm',
    'powerKw',
    'torqueLbFt',
    'powerHp',
    'pulls',
    'deviationPct',
    'correctionStandard',
    'warnings',
  ];
  const { torque, power } = SHOWN.trade;
  const rows = sheets.flatMap((sheet, i) => [
    ...sheet.pulls.flatMap((pull) =>
      pull.points.map(({ rpm, torqueNm, powerKw }) => [
        summaries[i].title ?? '',
        sheet.name,
        pull.name,
        rpm,
        torqueNm,
        powerKw,
        torque(torqueNm),
        power(powerKw),
        1,
        '',
        sheet.standard,
        warningsCell(summaries[i].notes),
      ]),
    ),
    ...summaries[i].points.map(({ rpm, torqueNm, powerKw, pulls, deviation }) => [
      summaries[i].title ?? '',
      sheet.name,
      'mean',
      rpm,
      torqueNm,
      powerKw,
      torque(torqueNm),
      power(powerKw),
      pulls,
      deviation === null ? '' : 100 * deviation,
      sheet.standard,
      warningsCell(summaries[i].notes),
    ]),
  ]);
  return csv([header, ...rows]);
}
