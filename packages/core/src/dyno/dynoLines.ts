/** Text of a dyno sheet to its header, its rows of cells and the lines that are neither. */

import type { Result } from '../base/result.ts';
import type { PlainCode, Problem } from '../combination/problem.ts';
import { nearestName } from '../reading/nearestName.ts';
import { csvCells } from '../reading/sheet/csvCells.ts';
import { linesOf, type Refuse, type Refused, refuserOf, tooLong } from '../reading/sheet/sheetProblem.ts';
import { bare, type DynoColumn, dynoColumn, isUnitRow } from './dynoColumns.ts';

/** One line below the header that is not a remark. */
export interface DynoLine {
  readonly line: number;
  readonly cells: readonly string[];
  /** Blank lines or a repeated header stand between this row and the one before. */
  readonly parted: boolean;
  /** Remarks between this row and the one before (before the first: all of them), with their lines. */
  readonly remarks: readonly Remark[];
}

/** A line that is neither header nor row. */
export interface Remark {
  readonly line: number;
  readonly text: string;
}

/** A sheet's parts. */
export interface DynoLines {
  readonly columns: readonly DynoColumn[];
  /** Headers of columns that were not recognised. */
  readonly ignored: readonly string[];
  readonly headerLine: number;
  readonly delimiter: string;
  readonly rows: readonly DynoLine[];
}

/** The lines of a dyno sheet, or everything that is wrong with it. */
export type DynoLinesResult = Result<DynoLines, Problem>;

/** Longest sheet [characters] and most rows read: a logger's file of ten minutes fits. */
export const MAX_DYNO_LENGTH = 8_000_000;
export const MAX_DYNO_ROWS = 60_000;
const MAX_COLUMNS = 120;
/** Longest line read [characters]; 120 columns of a logger take two thousand. */
const MAX_LINE = 8_000;
/** The header stands within so many lines. */
const HEADER_WITHIN = 80;
const DELIMITERS = ['\t', ';', ','] as const;
const KNOWN_WORDS = ['rpm', 'torque', 'power'];

/** Parts the text of a sheet called `name` into header, rows and remarks. */
export function readDynoLines(text: string, name: string): DynoLinesResult {
  const fail = refuserOf(name);
  const tooMuch = tooLong(text, MAX_DYNO_LENGTH, fail);
  if (tooMuch !== null) return tooMuch;
  if (text.includes('\u0000')) return fail(null, 'sheet-binary', 'is no text: save it as CSV');
  const contents = linesOf(text);
  if (contents.every((line) => line.trim() === '')) return fail(null, 'sheet-empty', 'is empty');
  const long = contents.findIndex((line) => line.length > MAX_LINE);
  if (long >= 0) {
    const message = `has ${contents[long].length} characters on one line, at most ${MAX_LINE} are read`;
    return fail(long + 1, 'sheet-too-long', message);
  }
  const header = findHeader(contents);
  if (header === null) return fail(...missingHeader(contents));
  const next = contents[header.at + 1];
  const cells = next === undefined ? null : split(next, header.delimiter);
  const units = cells !== null && isUnitRow(cells) ? cells : null;
  const headings = header.cells.map((cell, index) => {
    const unit = bare(units?.[index] ?? '');
    return unit === '' ? cell : `${cell} (${unit})`;
  });
  if (headings.length > MAX_COLUMNS)
    return fail(header.at + 1, 'sheet-columns', `has ${headings.length} columns`);
  const columns = headings.flatMap((cell, index) => dynoColumn(cell, index) ?? []);
  const rows = rowsBelow(contents, { header, units, columns }, fail);
  if ('ok' in rows) return rows;
  if (rows.length === 0) return fail(header.at + 1, 'sheet-empty', 'has no rows below its header');
  const used = new Set(columns.map((column) => column.index));
  const ignored = headings.filter((cell, index) => !used.has(index) && cell !== '');
  return {
    ok: true,
    value: { columns, ignored, headerLine: header.at + 1, delimiter: header.delimiter, rows },
  };
}

/** What stands above the rows of a sheet. */
interface Head {
  readonly header: Header;
  /** Cells of the row of units below the header; null where there is none. */
  readonly units: readonly string[] | null;
  readonly columns: readonly DynoColumn[];
}

/** The rows, each with the remarks before it; or why there are none to be had. */
function rowsBelow(
  contents: readonly string[],
  { header, units, columns }: Head,
  fail: Refuse,
): readonly DynoLine[] | Refused {
  const rows: DynoLine[] = [];
  let remarks: Remark[] = contents
    .slice(0, header.at)
    .map((line, index) => ({ line: index + 1, text: line }));
  let parted = false;
  for (let at = header.at + (units === null ? 1 : 2); at < contents.length; at += 1) {
    const content = contents[at];
    const trimmed = content.replace(/[\s,;]+/gu, '');
    if (trimmed === '') {
      parted = rows.length > 0;
      continue;
    }
    if (/^[#"'/]*\s*#/u.test(content.trim()) || content.trim().startsWith('//')) {
      remarks.push({ line: at + 1, text: content });
      continue;
    }
    const cells = split(content, header.delimiter);
    if (cells === null) return fail(at + 1, 'sheet-quotes', 'has a quote that does not close');
    if (sameCells(cells, header.cells) || (units !== null && sameCells(cells, units))) {
      parted = rows.length > 0;
      continue;
    }
    // `Barometer, 29.4 inHg` between two pulls: its first cell starts with a letter.
    if (/^[a-z]/iu.test(cells[0]) && columns.every((c) => c.index !== 0 || c.kind !== 'pull')) {
      remarks.push({ line: at + 1, text: content });
      parted = rows.length > 0;
      continue;
    }
    rows.push({ line: at + 1, cells, parted, remarks });
    if (rows.length > MAX_DYNO_ROWS) {
      return fail(
        at + 1,
        'sheet-too-long',
        `has more than ${MAX_DYNO_ROWS} rows`,
        'keep the pull and cut the rest',
      );
    }
    remarks = [];
    parted = false;
  }
  return rows;
}

interface Header {
  readonly at: number;
  readonly delimiter: string;
  readonly cells: readonly string[];
}

/** The first line that names engine speed and torque or power, separated by tabs, semicolons or commas. */
function findHeader(contents: readonly string[]): Header | null {
  for (let at = 0; at < Math.min(contents.length, HEADER_WITHIN); at += 1) {
    if (contents[at].trim().startsWith('#')) continue;
    for (const delimiter of DELIMITERS) {
      const cells = split(contents[at], delimiter);
      if (cells === null || cells.length < 2) continue;
      const kinds = cells.map((cell, index) =>
        /^[\d.+-]/u.test(cell) ? null : (dynoColumn(cell, index)?.kind ?? null),
      );
      if (kinds.includes('rpm') && (kinds.includes('torque') || kinds.includes('power'))) {
        return { at, delimiter, cells };
      }
    }
  }
  return null;
}

/** What the likeliest header lacks, and which slip that may be. */
function missingHeader(contents: readonly string[]): [number | null, PlainCode, string, string] {
  const looks = (line: string): boolean =>
    !line.trim().startsWith('#') && /[a-z]/iu.test(line) && /[,;\t]/u.test(line);
  const best = contents
    .slice(0, HEADER_WITHIN)
    .map((line, index) => {
      const delimiter = DELIMITERS.find((d) => line.includes(d)) ?? ',';
      const cells = split(line, delimiter) ?? [];
      return {
        line: index + 1,
        cells,
        kinds: cells.flatMap((cell, i) => dynoColumn(cell, i)?.kind ?? []),
        text: line,
      };
    })
    .filter(({ text }) => looks(text))
    .sort((a, b) => b.kinds.length - a.kinds.length)[0];
  const example = 'name the columns like: rpm, torque (lb-ft), power (hp)';
  if (best === undefined) {
    const at = contents.slice(0, HEADER_WITHIN).findIndex(isUnparted);
    return at < 0
      ? [null, 'sheet-columns', 'has no header that names its columns', example]
      : [
          at + 1,
          'sheet-columns',
          'has a header whose columns are not separated',
          'separate cells by commas, semicolons or tabs',
        ];
  }
  const wanted = [
    best.kinds.includes('rpm') ? '' : 'engine speed',
    best.kinds.includes('torque') || best.kinds.includes('power') ? '' : 'torque or power',
  ].filter((word) => word !== '');
  const words = best.cells.flatMap((cell) => cell.split(/[\s()[\]]+/u)).filter((word) => word.length > 2);
  const slip = words
    .map((word) => [word, nearestName(word, KNOWN_WORDS)] as const)
    .find(([word, near]) => near !== null && near !== word.toLowerCase());
  const hint = slip === undefined ? example : `did you mean ${slip[1]} by '${slip[0]}'?`;
  return [
    best.line,
    'sheet-columns',
    `has no column of ${wanted.join(' and none of ') || 'rpm beside torque'}`,
    hint,
  ];
}

/** A header of one cell: speed and torque or power, with something else than a delimiter between them. */
function isUnparted(line: string): boolean {
  if (line.trim().startsWith('#')) return false;
  const words = line.toLowerCase().split(/[^a-z]+/u);
  const speed = words.indexOf('rpm');
  return speed >= 0 && words.slice(speed).some((word) => ['torque', 'power', 'hp'].includes(word));
}

function split(content: string, delimiter: string): readonly string[] | null {
  // A logger's thousands of rows have no quotes, and need no parser.
  if (!content.includes('"')) return content.split(delimiter).map((cell) => cell.trim());
  return csvCells(content, delimiter)?.map((cell) => cell.trim()) ?? null;
}

function sameCells(a: readonly string[], b: readonly string[]): boolean {
  return b.every((cell, index) => (a[index] ?? '') === cell);
}
