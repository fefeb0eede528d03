/** Flow sheets: lift against flow of intake and exhaust, and of the intake with its manifold bolted on. */
import type { Result } from '../../base/result.ts';
import { parseQuantity } from '../../base/units.ts';
import type { Problem } from '../../combination/problem.ts';
import { nearestName } from '../nearestName.ts';
import { depressionSaid } from './saidDepression.ts';
import { sheetProblem } from './sheetProblem.ts';
import { type Column, readTable, type Table } from './table.ts';

/** One side's points: lift [m] rising above 0, flow [m3/s] of one cylinder. */
export interface SheetFlow {
  readonly lift: readonly number[];
  readonly flow: readonly number[];
  /** Of several columns: the cylinder each is of, and its flow over the mean of all [-]; absent: one column. */
  readonly ports?: readonly { readonly cylinder: number; readonly share: number }[];
}

/** A flow sheet; a side that has no column is null. */
export interface FlowSheet {
  readonly name: string;
  readonly intake: SheetFlow | null;
  readonly exhaust: SheetFlow | null;
  readonly withManifold: SheetFlow | null;
  /** Test depression that a header, a column or a title speaks of [Pa]; null where none does. */
  readonly depression: number | null;
  /** Whether the header of the exhaust says that it was flowed with a pipe; null where it says nothing. */
  readonly exhaustPipe: boolean | null;
  /** Headers that were not used. */
  readonly ignored: readonly string[];
}

/** A flow sheet, or everything that is wrong with it. */
export type FlowSheetResult = Result<FlowSheet, Problem>;

/** Largest lift and flow worth believing: beyond lies a slip of unit. */
const MAX_LIFT = 0.04;
const MAX_FLOW = 1;

const KNOWN_WORDS = ['lift', 'intake', 'exhaust', 'manifold'];
const EXHAUST: ReadonlySet<string> = new Set(['exhaust', 'exh', 'ex', 'exh.', 'e']);
const INTAKE: ReadonlySet<string> = new Set(['intake', 'int', 'in', 'inlet', 'int.', 'i', 'flow']);

/** Reads a flow sheet: columns `lift in`, `intake cfm`, `exhaust cfm`, `intake with manifold cfm` in any order. */
export function readFlowSheet(text: string, name: string): FlowSheetResult {
  const read = readTable(text, name, ['lift']);
  if (!read.ok) return read;
  const table = read.value;
  const problems: Problem[] = [];
  const lift = only(table, 'lift', (column) => column.words.includes('lift'), problems);
  const manifold = several(table, 'manifold', isManifold, problems);
  const exhaust = several(
    table,
    'exhaust',
    (column) => isFlow(column) && has(column, EXHAUST) && !isManifold(column),
    problems,
  );
  const intake = several(
    table,
    'intake',
    (column) => isFlow(column) && has(column, INTAKE) && !isManifold(column) && !has(column, EXHAUST),
    problems,
  );
  const said = depressionSaid(table, problems);
  const used = [lift, ...manifold, ...exhaust, ...intake, said.column];
  const rest = table.columns.filter((column) => !used.includes(column));
  const ignored = rest.map((column) => column.header);
  if (lift === null) problems.push(missingColumn(table, 'lift', 'lift in', ignored));
  if (intake.length === 0 && exhaust.length === 0)
    problems.push(missingColumn(table, 'intake', 'intake cfm', ignored));
  // Its loss is counted by its own rating, and would count twice.
  for (const { header } of manifold.filter((column) => has(column, METERING))) {
    const message = `has a carburetor or throttle in the flow with manifold: '${header}'`;
    const hint = 'flow the manifold without it, or take the column out: its own rating counts';
    problems.push(sheetProblem(name, table.headerLine, 'sheet-columns', message, hint));
  }
  // An estimate would stand in for what was measured, and nobody would see it.
  for (const { header } of problems.length > 0 ? [] : rest.filter(({ unit }) => isFlowUnit(unit))) {
    const message = `has a column of flow that is neither intake, exhaust nor intake with manifold: '${header}'`;
    problems.push(
      sheetProblem(name, table.headerLine, 'sheet-columns', message, 'rename the column, or take it out'),
    );
  }
  if (lift === null || problems.length > 0) return { ok: false, problems };
  const lifts = converted(table, lift, 'length', MAX_LIFT, problems);
  if (problems.length === 0) checkRising(table, lifts, problems);
  const side = (columns: readonly Column[]): SheetFlow | null => {
    const each = columns.map((column) => {
      const flows = converted(table, column, 'flow', MAX_FLOW, problems);
      return { column, ...points(table, column, lifts, flows, problems) };
    });
    if (each.length > 1 && problems.length === 0) return meanOf(table, each, problems);
    const [only] = each;
    return only === undefined ? null : { lift: only.lift, flow: only.flow };
  };
  const sheet = {
    name,
    intake: side(intake),
    exhaust: side(exhaust),
    withManifold: side(manifold),
    depression: said.depression,
    exhaustPipe: exhaust.length === 1 ? pipeSaid(exhaust[0]) : null,
    ignored,
  };
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: sheet };
}

/** `with manifold`, `manifold`, `intake + manifold`; a column without it says so. */
function isManifold(column: Column): boolean {
  return (
    isFlow(column) &&
    column.words.some((word) => word.startsWith('manifold')) &&
    !column.words.includes('without') &&
    !column.words.includes('no')
  );
}

function isFlowUnit(unit: string): boolean {
  return unit !== '' && parseQuantity(`1 ${unit}`, 'flow').ok;
}

const METERING: ReadonlySet<string> = new Set(['carb', 'carburetor', 'carburettor', 'throttle', 'tb']);
const PIPE: ReadonlySet<string> = new Set(['pipe', 'tube', 'stub', 'header']);
const LACKING: ReadonlySet<string> = new Set(['without', 'no', 'bare', 'less']);

/** `exhaust cfm w/pipe`, `exhaust (no pipe) cfm`, `exhaust bare cfm`. */
function pipeSaid(column: Column): boolean | null {
  if (has(column, LACKING)) return has(column, PIPE) || column.words.includes('bare') ? false : null;
  return has(column, PIPE) ? true : null;
}

/** A column whose unit is a flow, or who should have one. */
function isFlow(column: Column): boolean {
  return column.unit !== '%' && column.unit !== 'rpm' && !column.words.some((word) => word.includes('/'));
}

function has(column: Column, words: ReadonlySet<string>): boolean {
  return column.words.some((word) => words.has(word));
}

function only(
  table: Table,
  what: string,
  fits: (column: Column) => boolean,
  problems: Problem[],
): Column | null {
  const found = table.columns.filter(fits);
  if (found.length > 1) {
    const headers = found.map((column) => `'${column.header}'`).join(' and ');
    problems.push(
      sheetProblem(
        table.name,
        table.headerLine,
        'sheet-columns',
        `has two ${what} columns: ${headers}`,
        'keep one of them',
      ),
    );
  }
  return found[0] ?? null;
}

/** One column, or one a cylinder with the cylinder's number in its name: `intake 3 cfm`. */
function several(
  table: Table,
  what: string,
  fits: (column: Column) => boolean,
  problems: Problem[],
): readonly Column[] {
  const found = table.columns.filter(fits);
  const numbers = found.map(numberOf);
  if (found.length < 2 || (!numbers.includes(null) && new Set(numbers).size === found.length)) return found;
  const headers = found.map((column) => `'${column.header}'`).join(' and ');
  const message = `has ${found.length === 2 ? 'two' : found.length} ${what} columns: ${headers}`;
  const hint = `keep one of them, or name the cylinder of each: '${what} 1 cfm', '${what} 2 cfm'`;
  problems.push(sheetProblem(table.name, table.headerLine, 'sheet-columns', message, hint));
  return found.slice(0, 1);
}

const CYLINDER = /^(?:#|no\.?|cyl\.?|cylinder)?(\d{1,2})$/u;
/** What may stand beside the number of a cylinder; with other words, `run 2` or `10 inH2O`, the number is of something else. */
const BESIDE_NUMBER: ReadonlySet<string> = new Set([
  ...EXHAUST,
  ...INTAKE,
  ...['cyl', 'cyl.', 'cylinder', 'port', 'no', 'no.', '#', 'with', 'manifold', '+'],
]);

/** Number of the cylinder that a column is of; null where its name has none. */
function numberOf({ words }: Column): number | null {
  const numbers = words.flatMap((word) => CYLINDER.exec(word)?.[1] ?? []).map(Number);
  const others = words.filter((word) => !CYLINDER.test(word));
  if (numbers.length !== 1 || !others.every((word) => BESIDE_NUMBER.has(word))) return null;
  return numbers[0] >= 1 && numbers[0] <= MOST_CYLINDERS ? numbers[0] : null;
}

/** Most cylinders of an engine that is read. */
const MOST_CYLINDERS = 16;

/** The mean of the columns of some cylinders at each lift, and how each compares with it. */
function meanOf(
  table: Table,
  each: readonly {
    readonly column: Column;
    readonly lift: readonly number[];
    readonly flow: readonly number[];
  }[],
  problems: Problem[],
): SheetFlow {
  const [first] = each;
  const other = each.find(({ lift }) => lift.join() !== first.lift.join());
  if (other !== undefined) {
    const message = `has other lifts in column '${other.column.header}' than in '${first.column.header}'`;
    const hint = 'measure each cylinder at the same lifts, or leave the column out';
    problems.push(sheetProblem(table.name, table.headerLine, 'sheet-lift', message, hint));
    return { lift: first.lift, flow: first.flow };
  }
  const flow = first.flow.map((_, row) => each.reduce((sum, one) => sum + one.flow[row], 0) / each.length);
  const share = (of: readonly number[]): number =>
    of.reduce((sum, value, row) => sum + value / flow[row], 0) / flow.length;
  return {
    lift: first.lift,
    flow,
    ports: each.map((one) => ({ cylinder: numberOf(one.column) ?? 0, share: share(one.flow) })),
  };
}

/** Most headers named in one message. */
const MOST_NAMED = 6;

function missingColumn(table: Table, what: string, example: string, ignored: readonly string[]): Problem {
  const words = ignored.flatMap((header) => header.split(/[\s,;()[\]]+/u)).filter((word) => word.length > 2);
  const slip = words.find((word) => nearestName(word, KNOWN_WORDS) === what);
  const hint = slip === undefined ? `name it '${example}'` : `did you mean ${what} by '${slip}'?`;
  const seen = table.columns.slice(0, MOST_NAMED).map(({ header }) => `'${header}'`);
  const message = `has no ${what} column among ${seen.join(', ')}${table.columns.length > MOST_NAMED ? ', ...' : ''}`;
  return sheetProblem(table.name, table.headerLine, 'sheet-columns', message, hint);
}

/** Values of a column in SI; blanks stay null. */
export function converted(
  table: Table,
  column: Column,
  dimension: 'length' | 'flow',
  max: number,
  problems: Problem[],
): readonly (number | null)[] {
  const example = dimension === 'length' ? 'in or mm' : 'cfm';
  if (column.unit === '') {
    const message = `has no unit in the header '${column.header}'`;
    problems.push(
      sheetProblem(table.name, table.headerLine, 'unit-missing', message, `end it with ${example}`),
    );
    return column.values.map(() => null);
  }
  const one = parseQuantity(`1 ${column.unit}`, dimension);
  if (!one.ok) {
    const message = `has the wrong unit in the header '${column.header}'`;
    problems.push(sheetProblem(table.name, table.headerLine, 'unit-mismatch', message, `use ${example}`));
    return column.values.map(() => null);
  }
  return column.values.map((value, row) => {
    if (value === null) return null;
    const si = value * one.value.kept;
    if (!(si >= 0 && si <= max)) {
      const message = `has ${value} ${column.unit} in column '${column.header}', which is impossible`;
      problems.push(sheetProblem(table.name, table.lines[row], 'out-of-range', message));
    }
    return si;
  });
}

function checkRising(table: Table, lifts: readonly (number | null)[], problems: Problem[]): void {
  let before = -1;
  lifts.forEach((lift, row) => {
    if (lift === null) {
      problems.push(sheetProblem(table.name, table.lines[row], 'sheet-lift', 'has a row without lift'));
    } else if (!(lift > before)) {
      problems.push(
        sheetProblem(
          table.name,
          table.lines[row],
          'sheet-lift',
          'has a lift that does not rise from row to row',
          'put the rows in the order of their lift',
        ),
      );
    } else {
      before = lift;
    }
  });
}

function points(
  table: Table,
  column: Column,
  lifts: readonly (number | null)[],
  flows: readonly (number | null)[],
  problems: Problem[],
): { readonly lift: readonly number[]; readonly flow: readonly number[] } {
  const lift: number[] = [];
  const flow: number[] = [];
  flows.forEach((value, row) => {
    const at = lifts[row];
    // A shut valve and a blank say nothing about the curve.
    if (value === null || at === null || at === 0) return;
    if (value === 0) {
      const message = `has no flow at an open valve in column '${column.header}'`;
      problems.push(
        sheetProblem(
          table.name,
          table.lines[row],
          'sheet-flow',
          message,
          'leave the cell blank if it was not measured',
        ),
      );
      return;
    }
    lift.push(at);
    flow.push(value);
  });
  if (lift.length < 2 && problems.length === 0) {
    const message = `has fewer than two points in column '${column.header}'`;
    problems.push(sheetProblem(table.name, table.headerLine, 'sheet-flow', message));
  }
  return { lift, flow };
}
