/** CSV after RFC 4180: CRLF, quotes doubled, one header line whose names carry the units; no cell is a formula. */
import type { Curve } from '@valvetide/core';
import { type BesideCurve, NOTHING_BESIDE } from './besideCurve.ts';
import { pointValues } from './json.ts';
import { plain } from './plain.ts';

type Cell = string | number | boolean;

/**
 * One line per speed. Combination, fidelity, standard and factor stand on each, so that no line loses its basis when it is cut out; so do
 * the means over a band. Columns of a sheet are empty at speeds it does not reach.
 */
export function curveCsv(curve: Curve, { counted, measured, spread }: BesideCurve = NOTHING_BESIDE): string {
  const { combination, fidelity, correction } = curve;
  const ofBand: readonly (readonly [string, Cell])[] =
    counted === null
      ? []
      : [
          ['bandFromRpm', counted.band.fromRpm],
          ['bandToRpm', counted.band.toRpm],
          ['bandTorqueNm', counted.mean.torqueNm],
          ['bandPowerKw', counted.mean.powerKw],
        ];
  const ofSheet = (rpm: number): readonly (readonly [string, Cell])[] => {
    if (measured === null) return [];
    const step = measured.bySpeed.find((one) => one.rpm === rpm);
    return [
      ['measuredTorqueNm', step?.measuredNm ?? ''],
      ['torqueAboveMeasuredNm', step?.differenceNm ?? ''],
      ['torqueAboveMeasuredPct', step?.differencePct ?? ''],
      ['rootMeanSquarePct', measured.rootMeanSquarePct],
    ];
  };
  const ofSpread = (rpm: number): readonly (readonly [string, Cell])[] => {
    if (spread === null) return [];
    const at = spread.points.find((point) => point.rpm === rpm);
    return [
      ['spreadTorqueNm', at?.torqueNm ?? ''],
      ['spreadShare', at?.total ?? ''],
      ['spreadShareAssumed', at?.assumed ?? ''],
      ['spreadShareStated', at?.stated ?? ''],
      ['spreadShareModel', at?.model ?? ''],
    ];
  };
  const rows = curve.points.map((point): readonly (readonly [string, Cell])[] => [
    ...pointValues(point).map(([key, value]) => [key, value ?? ''] as const),
    ['combination', combination],
    ['fidelity', fidelity],
    ['correctionStandard', correction.standard],
    ['correctionFactor', correction.factor],
    ['warnings', warningsCell(curve.warnings)],
    ...ofBand,
    ...ofSheet(point.rpm),
    ...ofSpread(point.rpm),
  ]);
  return csv([rows[0].map(([name]) => name), ...rows.map((row) => row.map(([, value]) => value))]);
}

/** What is to be known of all lines, in one cell. */
export function warningsCell(warnings: readonly (string | { readonly message: string })[]): string {
  return warnings.map((one) => (typeof one === 'string' ? one : one.message)).join('; ');
}

export function csv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: Cell): string {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new Error(`result value is ${value}, not a finite number`);
  }
  const text = typeof value === 'string' ? inert(plain(value)) : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A figure, with or without its unit, which no spreadsheet calculates with. */
const FIGURE = /^[+-]\d+(?:\.\d+)?(?: [A-Za-z%"°/0-9]+)?$/u;

/** A name that a spreadsheet would take for a formula gets an apostrophe before it, which makes it text there. */
function inert(text: string): string {
  return /^[\s]*[=+\-@|]/u.test(text) && !FIGURE.test(text) ? `'${text}` : text;
}
