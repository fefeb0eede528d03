/** Which columns of a flow sheet are lift, intake, exhaust and intake with manifold. */
import { parseQuantity } from '../../base/units.ts';
import type { Problem } from '../../combination/problem.ts';
import type { Side } from '../../combination/sides.ts';
import { nearestName } from '../nearestName.ts';
import { depressionSaid } from './saidDepression.ts';
import { sheetProblem } from './sheetProblem.ts';
import type { Column, Table } from './table.ts';

const KNOWN_WORDS = ['lift', 'intake', 'exhaust', 'manifold'];
const EXHAUST: ReadonlySet<string> = new Set(['exhaust', 'exh', 'ex', 'exh.', 'e']);
const INTAKE_ALONE: ReadonlySet<string> = new Set(['intake', 'int', 'in', 'inlet', 'int.', 'i']);
/** A flow that no side is said of is the intake's, but on a sheet of the exhaust alone. */
const INTAKE: ReadonlySet<string> = new Set([...INTAKE_ALONE, 'flow']);

/** The columns of a flow sheet, with what said so. */
export interface FlowColumns {
  readonly lift: Column | null;
  readonly intake: readonly Column[];
  readonly exhaust: readonly Column[];
  readonly manifold: readonly Column[];
  /** Test depression that a header, a column or a title speaks of [Pa]; null where none does. */
  readonly depression: number | null;
  /** Headers of the rest. */
  readonly ignored: readonly string[];
}

/**
 * Finds the columns by their names. What is missing, stands twice or would be overlooked is added to `problems`.
 *
 * @param side - that the file names the sheet for; null: both. Where no column says a side, its flow is of that one
 */
export function flowColumns(table: Table, side: Side | null, problems: Problem[]): FlowColumns {
  const { name } = table;
  const lift = only(table, 'lift', (column) => column.words.includes('lift'), problems);
  const isSided = table.columns.some(
    (column) => isFlow(column) && (has(column, EXHAUST) || has(column, INTAKE_ALONE) || isManifold(column)),
  );
  const isOf = (column: Column, which: Side, words: ReadonlySet<string>): boolean =>
    side !== null && !isSided && isFlowUnit(column.unit) ? side === which : has(column, words);
  const manifold = several(table, 'manifold', isManifold, problems);
  const exhaust = several(
    table,
    'exhaust',
    (column) => isFlow(column) && isOf(column, 'exhaust', EXHAUST) && !isManifold(column),
    problems,
  );
  const intake = several(
    table,
    'intake',
    (column) =>
      isFlow(column) && isOf(column, 'intake', INTAKE) && !isManifold(column) && !has(column, EXHAUST),
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
  return { lift, intake, exhaust, manifold, depression: said.depression, ignored };
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
export function pipeSaid(column: Column): boolean | null {
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
  const numbers = found.map(cylinderOf);
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
export function cylinderOf({ words }: Column): number | null {
  const numbers = words.flatMap((word) => CYLINDER.exec(word)?.[1] ?? []).map(Number);
  const others = words.filter((word) => !CYLINDER.test(word));
  if (numbers.length !== 1 || !others.every((word) => BESIDE_NUMBER.has(word))) return null;
  return numbers[0] >= 1 && numbers[0] <= MOST_CYLINDERS ? numbers[0] : null;
}

/** Most cylinders of an engine that is read. */
const MOST_CYLINDERS = 16;

const FLOW_UNITS = 'units of flow are cfm, l/s, l/min, m3/min, m3/h';
/** Most headers named in one message. */
const MOST_NAMED = 6;

function missingColumn(table: Table, what: string, example: string, ignored: readonly string[]): Problem {
  const words = ignored.flatMap((header) => header.split(/[\s,;()[\]]+/u)).filter((word) => word.length > 2);
  const slip = words.find((word) => nearestName(word, KNOWN_WORDS) === what);
  // The name is right: what kept the column from being one is its unit.
  const isNamed = slip?.toLowerCase() === what && what !== 'lift';
  const meant = isNamed ? FLOW_UNITS : `did you mean ${what} by '${slip}'?`;
  const hint = slip === undefined ? `name it '${example}'` : meant;
  const seen = table.columns.slice(0, MOST_NAMED).map(({ header }) => `'${header}'`);
  const message = `has no ${what} column among ${seen.join(', ')}${table.columns.length > MOST_NAMED ? ', ...' : ''}`;
  return sheetProblem(table.name, table.headerLine, 'sheet-columns', message, hint);
}
