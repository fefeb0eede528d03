/** CSV and TSV text to columns of numbers, with names and units from the header row. */

import Papa from 'papaparse';
import type { Result } from '../../base/result.ts';
import type { Problem } from '../../combination/problem.ts';

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
];

/**
 * Reads a sheet. The first line that is neither blank nor a `#` remark is the header; cells are parted by tab, semicolon
 * or comma, whichever the header uses. A decimal comma is read where cells are not parted by commas.
 */
export function readTable(text: string, name: string): TableResult {
  const fail = (
    line: number | null,
    code: string,
    message: string,
    hint: string | null = null,
  ): TableResult => ({
    ok: false,
    problems: [sheetProblem(name, line, code, message, hint)],
  });
  if (text.length > MAX_SHEET_LENGTH) {
    return fail(
      null,
      'sheet-too-long',
      `is too long: ${text.length} characters, at most ${MAX_SHEET_LENGTH} are read`,
    );
  }
  const kept = text
    .replace(/^\uFEFF/u, '')
    .split(/\r\n|\n|\r/u)
    .map((content, index) => ({ content, line: index + 1 }))
    .filter(({ content }) => content.trim() !== '' && !content.trim().startsWith('#'));
  if (kept.length < 2) return fail(kept[0]?.line ?? null, 'sheet-empty', 'has no rows below a header');
  const delimiter = delimiterOf(kept[0].content);
  const rows: string[][] = [];
  const problems: Problem[] = [];
  for (const { content, line } of kept) {
    const parsed = Papa.parse<string[]>(content, { delimiter, newline: '\n' });
    if (parsed.errors.length > 0 || parsed.data.length !== 1) {
      problems.push(sheetProblem(name, line, 'sheet-quotes', 'has a quote that does not close', null));
    }
    rows.push((parsed.data[0] ?? []).map((cell) => cell.trim()));
  }
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, MAX_PROBLEMS) };
  const [header, ...body] = rows;
  if (header.length > MAX_COLUMNS) return fail(kept[0].line, 'sheet-columns', `has ${header.length} columns`);
  const columns = header.map((cell) => ({ ...splitHeader(cell), values: [] as (number | null)[] }));
  body.forEach((row, index) => {
    readRow(row, kept[index + 1].line, columns, delimiter, name, problems);
  });
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, MAX_PROBLEMS) };
  return {
    ok: true,
    value: { name, columns, headerLine: kept[0].line, lines: kept.slice(1).map(({ line }) => line) },
  };
}

/** A problem in a sheet; `path` is filled in by whoever knows which field named it. */
export function sheetProblem(
  name: string,
  line: number | null,
  code: string,
  message: string,
  hint: string | null = null,
): Problem {
  return { file: name, line, column: null, path: '', code, message, hint };
}

interface OpenColumn extends Column {
  readonly values: (number | null)[];
}

function readRow(
  row: readonly string[],
  line: number,
  columns: readonly OpenColumn[],
  delimiter: string,
  name: string,
  problems: Problem[],
): void {
  const extra = row.slice(columns.length).some((cell) => cell !== '');
  if (extra) {
    const hint = delimiter === ',' ? 'for decimal commas, part the cells by semicolons' : null;
    const message = `has ${row.length} cells, the header has ${columns.length}`;
    problems.push(sheetProblem(name, line, 'sheet-cells', message, hint));
    return;
  }
  columns.forEach((column, index) => {
    const cell = row[index] ?? '';
    const value = numberOf(cell, delimiter);
    // Remarks stand in columns without unit: what is not a number there is a blank.
    if (value === undefined && column.unit !== '') {
      problems.push(
        sheetProblem(
          name,
          line,
          'sheet-number',
          `has '${cell.slice(0, 30)}' in column '${column.header}', which is no number`,
        ),
      );
    }
    column.values.push(value ?? null);
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

function delimiterOf(header: string): string {
  if (header.includes('\t')) return '\t';
  return header.includes(';') ? ';' : ',';
}

function splitHeader(cell: string): { header: string; words: readonly string[]; unit: string } {
  const header = cell.slice(0, 60);
  const plain = header
    .replace(/[()[\],;]/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();
  const parts = plain.split(' ');
  const last = parts[parts.length - 1].toLowerCase();
  const unit = UNITS.includes(last) && (parts.length > 1 || last !== 'in') ? last : '';
  const words = (unit === '' ? parts : parts.slice(0, -1)).map((part) => part.toLowerCase());
  return { header, words, unit: unit === 'inch' || unit === 'inches' ? 'in' : unit };
}
