/** Pulls as CSV: one line a pull and speed, then the mean of each sheet. */
import type { DynoSheet, PullSummary } from '@valvetide/core';
import { type CsvColumn, csvTable, warningsCell } from './csv.ts';
import { SHOWN } from './units.ts';

/** A speed of a pull, or of the mean of a sheet's pulls. */
interface PullRow {
  readonly sheet: DynoSheet;
  readonly summary: PullSummary;
  readonly pull: string;
  readonly point: { readonly rpm: number; readonly torqueNm: number; readonly powerKw: number };
  /** That the figures are a mean of. */
  readonly pulls: number;
  readonly deviation: number | null;
}

export function pullsCsv(sheets: readonly DynoSheet[], summaries: readonly PullSummary[]): string {
  const { torque, power } = SHOWN.trade;
  const columns: readonly CsvColumn<PullRow>[] = [
    ['combination', ({ summary }) => summary.title],
    ['sheet', ({ sheet }) => sheet.name],
    ['pull', ({ pull }) => pull],
    ['rpm', ({ point }) => point.rpm],
    ['torqueNm', ({ point }) => point.torqueNm],
    ['powerKw', ({ point }) => point.powerKw],
    ['torqueLbFt', ({ point }) => torque(point.torqueNm)],
    ['powerHp', ({ point }) => power(point.powerKw)],
    ['pulls', ({ pulls }) => pulls],
    ['deviationPct', ({ deviation }) => (deviation === null ? null : 100 * deviation)],
    ['correctionStandard', ({ sheet }) => sheet.standard],
    ['warnings', ({ summary }) => warningsCell(summary.notes)],
  ];
  return csvTable(
    columns,
    sheets.flatMap((sheet, i) => rowsOf(sheet, summaries[i])),
  );
}

function rowsOf(sheet: DynoSheet, summary: PullSummary): readonly PullRow[] {
  const single = sheet.pulls.flatMap(({ name, points }) =>
    points.map((point): PullRow => ({ sheet, summary, pull: name, point, pulls: 1, deviation: null })),
  );
  const means = summary.points.map(
    (point): PullRow => ({
      sheet,
      summary,
      pull: 'mean',
      point,
      pulls: point.pulls,
      deviation: point.deviation,
    }),
  );
  return [...single, ...means];
}
