/** CSV after RFC 4180: CRLF, quotes doubled, one header line whose names carry the units; no cell is a formula. */
import { plain } from './plain.ts';

/** Null: there is nothing to say. */
export type Cell = string | number | boolean | null;

/** The name of a column, with its unit, and what it says of a row. */
export type CsvColumn<Row> = readonly [name: string, cell: (row: Row) => Cell];

export function csvTable<Row>(columns: readonly CsvColumn<Row>[], rows: readonly Row[]): string {
  return csv([columns.map(([name]) => name), ...rows.map((row) => columns.map(([, cell]) => cell(row)))]);
}

/** What is to be known of all lines, in one cell. */
export function warningsCell(warnings: readonly (string | { readonly message: string })[]): string {
  return warnings.map((one) => (typeof one === 'string' ? one : one.message)).join('; ');
}

export function csv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: Cell): string {
  if (value === null) return '';
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
