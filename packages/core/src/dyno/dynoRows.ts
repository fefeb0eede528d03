/** Cells of a dyno sheet to numbers, with what was left out and why. */
import { counted } from '../base/counted.ts';
import { torqueOfPower } from '../base/power.ts';
import type { Problem } from '../combination/problem.ts';
import { sheetProblem } from '../reading/sheet/sheetProblem.ts';
import type { DynoColumn, DynoColumnKind } from './dynoColumns.ts';
import type { DynoLine, DynoLines } from './dynoLines.ts';

/** A number as printed: its value, and half of its last printed digit. */
export interface Printed {
  readonly value: number;
  readonly half: number;
}

/** One row in kept units. */
export interface DynoRow {
  readonly line: number;
  readonly parted: boolean;
  readonly source: DynoLine;
  readonly pull: string | null;
  readonly rpm: Printed;
  readonly torque: Printed | null;
  readonly power: Printed | null;
  readonly others: ReadonlyMap<DynoColumnKind, number>;
}

export interface DynoRowsResult {
  readonly rows: readonly DynoRow[];
  readonly problems: readonly Problem[];
  /** Repairs, for people. */
  readonly repairs: readonly string[];
}

const BLANKS: ReadonlySet<string> = new Set(['', '-', '--', '---', 'n/a', 'na', 'nan', '.', '*']);
const MAX_PROBLEMS = 10;
/** Speeds of engines that this program forecasts [1/min]. */
const SPEEDS = { min: 200, max: 25_000 } as const;
/** More than any engine of fifty litres has [N m]. */
const MOST_TORQUE = 20_000;
/** `3 000`, `3'000`: thousands set apart. */
const SET_APART = /^[+-]?\d{1,3}(?:[ \u00A0\u202F'\u2019]\d{3})+(?:[.,]\d+)?$/u;

/** Figures of torque and power as a sheet may have them side by side. */
export type Figures = 'corrected' | 'observed';

/** The columns to use, one of a kind; of torque and power those with the figures that are wanted, where a header says which it has. */
export function chosenColumns(
  columns: readonly DynoColumn[],
  wanted: Figures,
): ReadonlyMap<DynoColumnKind, DynoColumn> {
  const chosen = new Map<DynoColumnKind, DynoColumn>();
  for (const column of columns) {
    const before = chosen.get(column.kind);
    const better = before !== undefined && suits(column, wanted) > suits(before, wanted);
    if (before === undefined || better) chosen.set(column.kind, column);
  }
  return chosen;
}

/** 2: the header says that it has these figures; 1: it is silent; 0: it has the others. */
function suits({ corrected }: DynoColumn, wanted: Figures): 0 | 1 | 2 {
  if (corrected === null) return 1;
  return corrected === (wanted === 'corrected') ? 2 : 0;
}

/** Rows of a sheet in kept units, read from the columns chosen. Rows without speed, or without torque and power, are left out. */
export function readDynoRows(
  lines: DynoLines,
  name: string,
  chosen: ReadonlyMap<DynoColumnKind, DynoColumn>,
): DynoRowsResult {
  const problems: Problem[] = [];
  const marks = decimalMarks(lines);
  if (marks.commas.length > 0 && marks.points.length > 0) {
    const message = `mixes decimal commas (line ${marks.commas[0]}) and points (line ${marks.points[0]})`;
    const hint = 'use one decimal mark throughout, and none for thousands';
    return {
      rows: [],
      repairs: [],
      problems: [sheetProblem(name, marks.commas[0], 'decimal-mixed', message, hint)],
    };
  }
  const width = Math.max(...lines.columns.map((column) => column.index)) + lines.ignored.length + 1;
  const rows: DynoRow[] = [];
  const empty: number[] = [];
  const strange: StrangeSpeed[] = [];
  for (const source of lines.rows) {
    if (problems.length >= MAX_PROBLEMS) break;
    if (lines.delimiter === ',' && source.cells.slice(width).some((cell) => cell !== '')) {
      const message = `has ${source.cells.length} cells, the header has ${width}`;
      const hint = 'write thousands without a comma; for decimal commas, separate the cells by semicolons';
      problems.push(sheetProblem(name, source.line, 'sheet-cells', message, hint));
      continue;
    }
    const row = rowOf(source, chosen, name, problems);
    if (row === 'empty') empty.push(source.line);
    else if (row !== null && 'speed' in row) strange.push(row);
    else if (row !== null) rows.push(row);
  }
  if (strange.length > 0) problems.unshift(strangeSpeeds(name, strange));
  const repairs: string[] = [];
  if (empty.length > 0)
    repairs.push(
      `${counted(empty.length, 'row')} without speed, torque or power left out: ${lineList(empty)}`,
    );
  if (marks.commas.length > 0) repairs.push('decimal commas read as such');
  return { rows, problems: problems.slice(0, MAX_PROBLEMS), repairs };
}

/** A speed that no engine has. */
interface StrangeSpeed {
  readonly line: number;
  /** [1/min] */
  readonly speed: number;
  /** As it stands in the sheet. */
  readonly cell: string;
}

/** One row; `empty` where it has no speed, or neither torque nor power; null where it has a problem. */
function rowOf(
  source: DynoLine,
  chosen: ReadonlyMap<DynoColumnKind, DynoColumn>,
  name: string,
  problems: Problem[],
): DynoRow | StrangeSpeed | 'empty' | null {
  const read = (kind: DynoColumnKind): Printed | null => {
    const column = chosen.get(kind);
    return column === undefined ? null : cellOf(source, column, name, problems);
  };
  const { line, parted } = source;
  const rpm = read('rpm');
  const torque = read('torque');
  const power = read('power');
  if (rpm === null || (torque === null && power === null)) return 'empty';
  if (!(rpm.value >= SPEEDS.min && rpm.value <= SPEEDS.max))
    return { line, speed: rpm.value, cell: cellText(source, chosen.get('rpm')) };
  const most = torque?.value ?? torqueOfPower(power?.value ?? 0, rpm.value);
  if (most > MOST_TORQUE) {
    const figure = Number((torque ?? power)?.value.toPrecision(4));
    const what = torque === null ? `${figure} kW of power` : `${figure} N m of torque`;
    const hint = 'look at the unit in the header';
    problems.push(sheetProblem(name, line, 'out-of-range', `has ${what}, more than any engine`, hint));
    return null;
  }
  const others = new Map<DynoColumnKind, number>();
  for (const [kind, column] of chosen) {
    if (kind === 'rpm' || kind === 'torque' || kind === 'power' || kind === 'pull') continue;
    const value = cellOf(source, column, name, problems);
    if (value !== null) others.set(kind, value.value);
  }
  const pull = cellText(source, chosen.get('pull'));
  return { line, parted, source, pull: pull === '' ? null : pull, rpm, torque, power, others };
}

/** Speeds that no engine has, all in one problem. */
function strangeSpeeds(name: string, strange: readonly StrangeSpeed[]): Problem {
  const [{ line, speed: rpm, cell }, ...others] = strange;
  const also = others.length > 0 ? `, and likewise at ${lineList(others.map((other) => other.line))}` : '';
  const message = `has the engine speed ${Number(rpm.toPrecision(6))} rpm, which is outside ${SPEEDS.min} to ${SPEEDS.max}${also}`;
  const thousands = rpm * 1000 >= SPEEDS.min && rpm * 1000 <= SPEEDS.max;
  const hint = !thousands
    ? null
    : /[.,]\d{3}$/u.test(cell)
      ? `if '${cell}' means ${Math.round(rpm * 1000)}, write thousands without a separator`
      : 'in thousands? write speeds in rpm';
  return sheetProblem(name, line, 'out-of-range', message, hint);
}

/** A cell as it stands in the sheet; empty where there is no such column. */
function cellText(source: DynoLine, column: DynoColumn | undefined): string {
  return column === undefined ? '' : (source.cells[column.index] ?? '');
}

/** `line 7`, `lines 7, 9, 12 and 40 more`. */
export function lineList(lines: readonly number[]): string {
  const shown = lines.slice(0, 5).join(', ');
  const more = lines.length > 5 ? ` and ${lines.length - 5} more` : '';
  return `${lines.length === 1 ? 'line' : 'lines'} ${shown}${more}`;
}

/** A cell's number in the kept unit; null where it is blank, and where it is no number, which is then a problem. */
function cellOf(source: DynoLine, column: DynoColumn, name: string, problems: Problem[]): Printed | null {
  const cell = source.cells[column.index] ?? '';
  if (BLANKS.has(cell.toLowerCase())) return null;
  const plain = cell.replace(/^([+-]?\d+),(\d+)$/u, '$1.$2');
  const found = /^([+-]?)(\d*)(?:\.(\d*))?(?:e([+-]?\d{1,2}))?$/iu.exec(plain);
  const value = Number(plain);
  if (found === null || !Number.isFinite(value)) {
    if (column.unit === null) return null;
    const message = `has '${cell.slice(0, 30)}' in column '${column.header.slice(0, 40)}', which is no number`;
    const hint = SET_APART.test(cell) ? 'write thousands without a separator' : null;
    problems.push(sheetProblem(name, source.line, 'sheet-number', message, hint));
    return null;
  }
  if (column.unit === null) return null;
  const digit = 10 ** (Number(found[4] ?? 0) - (found[3] ?? '').length);
  const { factor, offset } = column.unit;
  return { value: value * factor + offset, half: (digit / 2) * factor };
}

/** Lines whose cells have a decimal comma, and a decimal point; where cells are separated by commas there are no decimal commas. */
function decimalMarks({ rows, delimiter }: DynoLines): {
  readonly commas: number[];
  readonly points: number[];
} {
  const commas: number[] = [];
  const points: number[] = [];
  for (const { cells, line } of rows) {
    if (cells.some((cell) => /^[+-]?\d*\.\d+$/u.test(cell))) points.push(line);
    if (delimiter !== ',' && cells.some((cell) => /^[+-]?\d+,\d+$/u.test(cell))) commas.push(line);
  }
  return { commas, points };
}
