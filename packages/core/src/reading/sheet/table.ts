/** CSV and TSV text to columns of numbers, with names and units from the header row. */

import type { Result } from '../../base/result.ts';
import type { Problem } from '../../combination/problem.ts';
import { csvCells } from './csvCells.ts';
import { linesOf, refuserOf, sheetProblem, tooLong } from './sheetProblem.ts';

/** One column of a sheet. */
export interface Column {
  /** Header as written. */
  readonly header: string;
  /** Words of the header before the unit, lower case. */
  readonly words: readonly string[];
  /** Unit as written; empty where none is given. */
  readonly unit: string;
  /** One entry a row; null for a blank. */
  readonly values: readonly (number | null)[];
}

/** A sheet's columns, and the line each row stands on. */
export interface Table {
  readonly name: string;
  readonly columns: readonly Column[];
  readonly headerLine: number;
  /** Titles and remarks above the header. */
  readonly above: readonly { readonly line: number; readonly text: string }[];
  /** Line of each row, from 1. */
  readonly lines: readonly number[];
}

/** A sheet's columns, or everything that is wrong with it. */
export type TableResult = Result<Table, Problem>;

/** Longest sheet read [characters]. */
export const MAX_SHEET_LENGTH = 400_000;
const MAX_COLUMNS = 40;
const MAX_PROBLEMS = 20;

/** Cells that say "not measured". */
const BLANKS: ReadonlySet<string> = new Set(['', '-', '--', 'n/a', 'na']);

/** Units a header may carry, longest first. */
const UNITS = [
  'm3/h',
  'm3/min',
  'l/min',
  'l/s',
  'inches',
  'inch',
  'in',
  'mm',
  'cm',
  'thou',
  'cfm',
  'degrees',
  'deg',
  'kg/h',
  'rpm',
  '%',
  'mbar',
  'bar',
  'kpa',
  'mpa',
  'psia',
  'psig',
  'psi',
];

/** Titles of the shop stand above the header, not many of them. */
const MOST_TITLES = 30;

/**
 * Reads a sheet. The header is the first line of two cells or more with one of the wanted words, or else the first that is neither
 * blank nor a `#` remark; a row of units may follow. Cells are separated by tab, semicolon, comma, bar or some spaces, whichever the header uses. A decimal
 * comma is read where cells are not separated by commas.
 *
 * @param wanted - words of which a header has one, lower case
 */
export function readTable(text: string, name: string, wanted: readonly string[]): TableResult {
  const fail = refuserOf(name);
  const long = tooLong(text, MAX_SHEET_LENGTH, fail);
  if (long !== null) return long;
  const written = linesOf(text)
    .map((content, index) => ({ content, line: index + 1 }))
    // A spreadsheet writes an empty row as its separators alone.
    .filter(({ content }) => /[^\s;,|]/u.test(content));
  const filled = written.filter(({ content }) => !content.trim().startsWith('#'));
  const titles = Math.max(
    0,
    filled.slice(0, MOST_TITLES).findIndex(({ content }) => isHeader(content, wanted)),
  );
  const kept = filled.slice(titles);
  const above = written
    .filter(({ line }) => line < (kept[0]?.line ?? 0))
    .map(({ line, content }) => ({ line, text: content.slice(0, LONGEST_TITLE) }));
  if (kept.length < 2) return fail(kept[0]?.line ?? null, 'sheet-empty', 'has no rows below a header');
  const delimiter = delimiterOf(kept[0].content);
  const rows: string[][] = [];
  const problems: Problem[] = [];
  for (const { content, line } of kept) {
    const cells = delimiter === SPACES ? content.trim().split(/\s{2,}/u) : csvCells(content, delimiter);
    if (cells === null)
      problems.push(sheetProblem(name, line, 'sheet-quotes', 'has a quote that does not close', null));
    rows.push((cells ?? []).map((cell) => cell.trim()));
  }
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, MAX_PROBLEMS) };
  const [header, second, ...rest] = rows;
  if (header.length === 1) {
    const message = `has one cell in its header: '${header[0].slice(0, LONGEST_HEADER)}'`;
    return fail(
      kept[0].line,
      'sheet-cells',
      message,
      'separate the cells by commas, semicolons, tabs or bars',
    );
  }
  if (header.length > MAX_COLUMNS) return fail(kept[0].line, 'sheet-columns', `has ${header.length} columns`);
  const units = isUnitRow(second) ? second : [];
  const body = units.length > 0 ? rest : rows.slice(1);
  const lines = kept.slice(rows.length - body.length).map(({ line }) => line);
  if (body.length === 0) return fail(kept[0].line, 'sheet-empty', 'has no rows below a header');
  const columns = header.map((cell, index) => {
    const split = splitHeader(cell);
    const unit = split.unit === '' ? unitNamed(units[index] ?? '') : split.unit;
    return { ...split, unit, values: [] as (number | null)[] };
  });
  body.forEach((row, index) => {
    problems.push(...readRow({ cells: row, line: lines[index] }, columns, delimiter, name));
  });
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, MAX_PROBLEMS) };
  return {
    ok: true,
    value: { name, columns, headerLine: kept[0].line, above, lines },
  };
}

interface OpenColumn extends Column {
  readonly values: (number | null)[];
}

/** Puts the numbers of a row at the ends of their columns; what is wrong with it comes back. */
function readRow(
  { cells, line }: { readonly cells: readonly string[]; readonly line: number },
  columns: readonly OpenColumn[],
  delimiter: string,
  name: string,
): readonly Problem[] {
  const extra = cells.slice(columns.length).some((cell) => cell !== '');
  if (extra) {
    const hint = delimiter === ',' ? 'for decimal commas, separate the cells by semicolons' : null;
    const message = `has ${cells.length} cells, the header has ${columns.length}`;
    return [sheetProblem(name, line, 'sheet-cells', message, hint)];
  }
  return columns.flatMap((column, index): Problem[] => {
    const cell = cells[index] ?? '';
    const value = numberOf(cell, delimiter);
    column.values.push(value ?? null);
    // Remarks stand in columns without unit: what is not a number there is a blank.
    if (value !== undefined || column.unit === '') return [];
    const message = `has '${cell.slice(0, 30)}' in column '${column.header}', which is no number`;
    const hint = index === 0 ? 'begin a line of remarks with #' : null;
    return [sheetProblem(name, line, 'sheet-number', message, hint)];
  });
}

/** The cell's number, null for a blank, undefined for anything else. */
function numberOf(cell: string, delimiter: string): number | null | undefined {
  if (BLANKS.has(cell.toLowerCase())) return null;
  const plain = delimiter === ',' ? cell : cell.replace(/^([+-]?\d*),(\d+)$/u, '$1.$2');
  if (!/^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d{1,2})?$/iu.test(plain)) return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}

/** Two spaces or more: how columns look that were copied from a page. */
const SPACES = '  ';

function delimiterOf(header: string): string {
  const found = ['\t', ';', ',', '|'].find((sign) => header.includes(sign));
  return found ?? (/\S\s{2,}\S/u.test(header) ? SPACES : ',');
}

/** Whether a line names columns: two cells or more, none of them a number, one with a wanted word. */
function isHeader(content: string, wanted: readonly string[]): boolean {
  const delimiter = delimiterOf(content);
  const cells = content.split(delimiter === SPACES ? /\s{2,}/u : delimiter).map((cell) => cell.trim());
  const words = content
    .slice(0, 400)
    .toLowerCase()
    .split(/[^\p{L}]+/u);
  return (
    cells.filter((cell) => cell !== '').length > 1 &&
    !cells.some((cell) => /^[+-]?[\d.]+$/u.test(cell)) &&
    words.some((word) => wanted.includes(word))
  );
}

/** A row of units under the header: two or more filled cells, each a unit. */
function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '');
  return filled.length > 1 && filled.every((cell) => unitNamed(cell) !== '');
}

/** The unit that a cell or word is; empty where it is none. */
function unitNamed(text: string): string {
  const word = text
    .replace(/[()[\]]/gu, '')
    .trim()
    .toLowerCase();
  if (word === '"' || word === 'in.') return 'in';
  if (!UNITS.includes(word)) return '';
  return word === 'inch' || word === 'inches' ? 'in' : word;
}

/** Longest header cell and title line looked at [characters]. */
const LONGEST_HEADER = 60;
const LONGEST_TITLE = 200;

/** `exhaust cfm w/pipe`: name and unit, wherever in the cell the unit stands. */
function splitHeader(cell: string): { header: string; words: readonly string[]; unit: string } {
  const header = cell.slice(0, LONGEST_HEADER);
  const parts = header
    .replace(/\bw\/o\b\s*/giu, 'without ')
    .replace(/\bw\/\s*/giu, 'with ')
    // At which depression, not of what.
    .replace(/@\s*\d[\d.]*\s*(?:"\s*(?:h2o)?|in(?:ches)?\.?\s*(?:of\s+)?h2o|\b)/giu, ' ')
    .replace(/[()[\],;]/gu, ' ')
    .trim()
    .split(/\s+/u);
  // `in` alone, or before other words, is more often the short word for intake than a unit.
  const at = parts.findLastIndex(
    (part, i) => unitNamed(part) !== '' && (part.toLowerCase() !== 'in' || (i > 0 && i === parts.length - 1)),
  );
  const unit = at < 0 ? '' : unitNamed(parts[at]);
  const words = parts.filter((_, i) => i !== at).map((part) => part.toLowerCase());
  return { header, words, unit };
}
