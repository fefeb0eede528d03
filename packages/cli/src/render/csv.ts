/** CSV after RFC 4180: CRLF, quotes doubled, one header line whose names carry the units. */
import type { Curve } from '@valvetide/core';
import { POINT_KEYS } from './json.ts';

/** One line per speed. Fidelity, standard and factor stand on each, so that no line loses its basis when it is cut out. */
export function curveCsv(curve: Curve): string {
  const header = [...POINT_KEYS, 'fidelity', 'correctionStandard', 'correctionFactor'];
  const rows = curve.points.map((point) => [
    ...POINT_KEYS.map((key) => point[key]),
    curve.fidelity,
    curve.correction.standard,
    curve.correction.factor,
  ]);
  return csv([header, ...rows]);
}

export function csv(rows: readonly (readonly (string | number | boolean)[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | boolean): string {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new Error(`result value is ${value}, not a finite number`);
  }
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
