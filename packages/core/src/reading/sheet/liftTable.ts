/** Measured lobes: lift against angle. */
import { INCH } from '../../base/constants.ts';
import type { Result } from '../../base/result.ts';
import type { Problem } from '../../combination/problem.ts';
import { converted } from './converted.ts';
import { sheetProblem } from './sheetProblem.ts';
import { type Column, readTable, type Table } from './table.ts';

/** A measured lobe, angles from its centre. */
export interface LiftTable {
  readonly name: string;
  /** [crank deg], rising. */
  readonly angle: readonly number[];
  /** [m], at what `of` says. */
  readonly lift: readonly number[];
  readonly of: 'lobe' | 'valve' | 'valve-net';
  /** Centreline where the sheet counts from top centre [crank deg]: after it for intake, before it for exhaust; null where it doesn't. */
  readonly centreline: number | null;
}

/** A lobe, or everything that is wrong with its sheet. */
export type LiftTableResult = Result<LiftTable, Problem>;

const MAX_LIFT = 0.03;
/** Fewest rows that show a lobe. */
const MIN_ROWS = 8;
/** The sheet's zero is taken for the centre when the nose stands this near [crank deg]. */
const NEAR_CENTRE = 4;
/** Lift at which the middle of the lobe is found [m]: 0.050 in, as centrelines are checked. */
const CENTRE_LIFT = 0.05 * INCH;

/**
 * Reads a lobe: columns `crank deg` (or `cam deg`) and `lobe lift in` (or `valve lift mm`), in any order. A sheet may hold
 * both lobes as `intake lobe lift` and `exhaust lobe lift`. `net valve lift` was measured at the valve with its lash: nothing more is
 * taken off. `crank deg atdc` counts from a top centre, and so says where the lobe stands.
 */
export function readLiftTable(text: string, name: string, side: 'intake' | 'exhaust'): LiftTableResult {
  const read = readTable(text, name, ['lift', 'rise', 'deg', 'degrees']);
  if (!read.ok) return read;
  const table = read.value;
  const problems: Problem[] = [];
  const angle = table.columns.find((column) => column.unit === 'deg' || column.unit === 'degrees') ?? null;
  const lift = liftColumn(table, side);
  if (angle === null)
    problems.push(headerProblem(table, 'has no angle column', "name it 'crank deg' or 'cam deg'"));
  if (lift === null)
    problems.push(headerProblem(table, 'has no lift column', "name it 'lobe lift in' or 'valve lift in'"));
  if (angle === null || lift === null) return { ok: false, problems };
  const isCam = angle.words.includes('cam');
  if (isCam === angle.words.includes('crank')) {
    problems.push(
      headerProblem(
        table,
        `does not say which degrees '${angle.header}' are`,
        "write 'crank deg' or 'cam deg'",
      ),
    );
  }
  const ofValve = lift.words.includes('valve');
  const ofLobe = lift.words.some((word) => word === 'lobe' || word === 'cam' || word === 'lifter');
  if (ofValve === ofLobe) {
    problems.push(
      headerProblem(
        table,
        `does not say whose lift '${lift.header}' is`,
        "write 'lobe lift' or 'valve lift'",
      ),
    );
  }
  const isNet = lift.words.includes('net');
  if (isNet && ofLobe) {
    const message = `speaks of a net lift of the lobe in '${lift.header}'`;
    problems.push(headerProblem(table, message, "net is what the valve does: 'net valve lift'"));
  }
  const lifts = converted(table, lift, 'length', MAX_LIFT, problems);
  const rows = rowsOf(table, angle, lifts, isCam ? 2 : 1, problems);
  if (problems.length === 0) checkEnds(table, rows, problems);
  if (problems.length > 0) return { ok: false, problems };
  const fromTop = angle.words.some((word) => FROM_TOP.has(word));
  const shift = centreOf(rows, fromTop ? 'top-centre' : 'any');
  const centreline = fromTop ? standing(shift, side) : null;
  if (centreline !== null && !(centreline >= EARLIEST_CENTRE && centreline <= LATEST_CENTRE)) {
    const message = `puts the ${side} lobe's centre ${centreline.toFixed(0)} deg ${side === 'intake' ? 'after' : 'before'} top centre`;
    const hint = 'count from the top centre between exhaust and intake stroke, or name the column crank deg';
    return {
      ok: false,
      problems: [sheetProblem(table.name, table.headerLine, 'sheet-angle', message, hint)],
    };
  }
  const centred = rows.angle.map((at) => at - shift);
  const of = isNet ? 'valve-net' : ofValve ? 'valve' : 'lobe';
  return { ok: true, value: { name, angle: centred, lift: rows.lift, of, centreline } };
}

/** Words of a column that counts from a top centre. */
const FROM_TOP: ReadonlySet<string> = new Set(['atdc', 'tdc', 'atc', 'tc']);
/** Centrelines worth believing, as in the file [crank deg]. */
const EARLIEST_CENTRE = 60;
const LATEST_CENTRE = 170;

/** Centreline by an angle from a top centre, either of the two: a turn of the crank apart, only one is where a lobe can stand. */
function standing(shift: number, side: 'intake' | 'exhaust'): number {
  const after = side === 'intake' ? shift : -shift;
  return after - 360 * Math.floor(after / 360);
}

function liftColumn(table: Table, side: 'intake' | 'exhaust'): Column | null {
  const lifts = table.columns.filter(
    (column) => column.words.includes('lift') || column.words.includes('rise'),
  );
  return lifts.find((column) => column.words.includes(side)) ?? (lifts.length === 1 ? lifts[0] : null);
}

function headerProblem(table: Table, message: string, hint: string): Problem {
  return sheetProblem(table.name, table.headerLine, 'sheet-columns', message, hint);
}

function rowsOf(
  table: Table,
  column: Column,
  lifts: readonly (number | null)[],
  toCrank: number,
  problems: Problem[],
): { angle: readonly number[]; lift: readonly number[] } {
  const angle: number[] = [];
  const lift: number[] = [];
  column.values.forEach((value, row) => {
    const at = lifts[row];
    if (value === null || at === null) return;
    const crank = value * toCrank;
    if (!(Math.abs(crank) <= 1440)) {
      problems.push(
        sheetProblem(table.name, table.lines[row], 'out-of-range', `has the impossible angle ${value}`),
      );
    } else if (angle.length > 0 && !(crank > angle[angle.length - 1])) {
      problems.push(
        sheetProblem(
          table.name,
          table.lines[row],
          'sheet-angle',
          'has an angle that does not rise from row to row',
        ),
      );
    }
    angle.push(crank);
    lift.push(at);
  });
  const highest = lift.length > 0 ? Math.max(...lift) : 0;
  if (problems.length === 0 && (angle.length < MIN_ROWS || !(highest > CENTRE_LIFT))) {
    const message = `shows no lobe: ${angle.length} rows, highest lift ${(highest * 1000).toFixed(2)} mm`;
    const hint = `${MIN_ROWS} rows or more are needed, and more lift than ${(CENTRE_LIFT * 1000).toFixed(2)} mm`;
    problems.push(sheetProblem(table.name, table.headerLine, 'sheet-lobe', message, hint));
  }
  if (problems.length === 0 && angle[angle.length - 1] - angle[0] > 720) {
    problems.push(sheetProblem(table.name, table.headerLine, 'sheet-angle', 'spans more than 720 crank deg'));
  }
  return { angle, lift };
}

/** Lift at an end of the table over the highest, above which the rest of the lobe is not known [-]. */
const MOST_AT_END = 0.1;

/** A table may stop short of the seat, not halfway up; it may begin at the nose, and is mirrored there. */
function checkEnds(
  table: Table,
  { angle, lift }: { readonly angle: readonly number[]; readonly lift: readonly number[] },
  problems: Problem[],
): void {
  const highest = Math.max(...lift);
  const ends = angle[0] === 0 && lift[0] === highest ? [lift.length - 1] : [0, lift.length - 1];
  for (const end of ends) {
    if (lift[end] <= MOST_AT_END * highest) continue;
    const message = `${end === 0 ? 'begins' : 'ends'} at ${((100 * lift[end]) / highest).toFixed(0)} % of its highest lift: the rest of the lobe is not known`;
    const hint = `carry it on to below ${100 * MOST_AT_END} %`;
    const row = end === 0 ? 0 : table.lines.length - 1;
    problems.push(sheetProblem(table.name, table.lines[row], 'sheet-lobe', message, hint));
  }
}

/**
 * Angle of the lobe's centre in the sheet's own degrees: the nose where the table begins there, 0 where the nose is near it and angles
 * may count from anywhere, else the middle at 0.050 in.
 */
function centreOf(
  { angle, lift }: { readonly angle: readonly number[]; readonly lift: readonly number[] },
  from: 'top-centre' | 'any',
): number {
  const nose = lift.indexOf(Math.max(...lift));
  if (nose === 0) return angle[0];
  if (from === 'any' && Math.abs(angle[nose]) <= NEAR_CENTRE) return 0;
  let opens = angle[0];
  let closes = angle[angle.length - 1];
  for (let i = 1; i < lift.length; i += 1) {
    const share = (CENTRE_LIFT - lift[i - 1]) / (lift[i] - lift[i - 1]);
    const at = angle[i - 1] + share * (angle[i] - angle[i - 1]);
    if (i <= nose && lift[i - 1] < CENTRE_LIFT && lift[i] >= CENTRE_LIFT) opens = at;
    if (i > nose && lift[i - 1] >= CENTRE_LIFT && lift[i] < CENTRE_LIFT) {
      closes = at;
      break;
    }
  }
  return (opens + closes) / 2;
}
