/** Flow sheets: lift against flow of intake and exhaust, and of the intake with its manifold bolted on. */
import type { Result } from '../../base/result.ts';
import type { Problem } from '../../combination/problem.ts';
import type { Side } from '../../combination/sides.ts';
import { converted } from './converted.ts';
import { cylinderOf, flowColumns, pipeSaid } from './flowColumns.ts';
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

/**
 * Reads a flow sheet: columns `lift in`, `intake cfm`, `exhaust cfm`, `intake with manifold cfm` in any order.
 *
 * @param of - the side that the file names the sheet for, whose flow may then be headed `cfm` alone; null: both
 */
export function readFlowSheet(text: string, name: string, of: Side | null = null): FlowSheetResult {
  const read = readTable(text, name, ['lift']);
  if (!read.ok) return read;
  const table = read.value;
  const problems: Problem[] = [];
  const { lift, intake, exhaust, manifold, depression, ignored } = flowColumns(table, of, problems);
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
    depression,
    exhaustPipe: exhaust.length === 1 ? pipeSaid(exhaust[0]) : null,
    ignored,
  };
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: sheet };
}

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
    ports: each.map((one) => ({ cylinder: cylinderOf(one.column) ?? 0, share: share(one.flow) })),
  };
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
