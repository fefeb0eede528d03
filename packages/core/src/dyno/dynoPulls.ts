/** Rows of a dyno sheet to pulls whose speeds rise, with every repair said. */

import { counted } from '../base/counted.ts';
import { powerOf, torqueOfPower } from '../base/power.ts';
import type { DynoChannel, DynoColumnKind } from './dynoColumns.ts';
import { type DynoRow, lineList } from './dynoRows.ts';

/** One speed of a pull; torque and power as printed under the sheet's standard. */
export interface PullPoint {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Torque [N m]. */
  readonly torqueNm: number;
  /** Power [kW]. */
  readonly powerKw: number;
  /** Whatever else the sheet gives, by name with unit. */
  readonly channels: Readonly<Partial<Record<DynoChannel, number>>>;
}

/** Rows of one pull, before they are put in order. */
export interface PullRows {
  readonly name: string | null;
  readonly rows: readonly DynoRow[];
}

export interface SplitResult {
  readonly pulls: readonly PullRows[];
  readonly repairs: readonly string[];
}

/** A fall of speed by more than so much of the pull's span begins another pull [-], and by so much at least [1/min]. */
const NEW_PULL = { share: 0.5, least: 500 } as const;
/** Most speeds kept of a pull, and the step it is averaged over where it has more [1/min]. */
const MAX_POINTS = 300;
const BIN = 50;
/** Share of rows out of order that a repair may put right [-]. */
const MOST_FALLS = 0.3;

/** Parts rows into pulls: by the pull column, by blank lines where the speed starts again, or by a great fall of speed. */
export function splitPulls(rows: readonly DynoRow[]): SplitResult {
  return rows.some((row) => row.pull !== null) ? splitByNumber(rows) : splitBySpeed(rows);
}

function splitByNumber(rows: readonly DynoRow[]): SplitResult {
  const groups = new Map<string, DynoRow[]>();
  for (const row of rows) {
    const key = row.pull ?? 'without a number';
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return { pulls: [...groups].map(([name, group]) => ({ name, rows: group })), repairs: [] };
}

function splitBySpeed(rows: readonly DynoRow[]): SplitResult {
  const pulls: DynoRow[][] = [];
  let current: DynoRow[] = [];
  const falls: number[] = [];
  for (const [at, row] of rows.entries()) {
    if (current.length > 0 && startsPull(current, row, rows[at + 1])) {
      if (!row.parted) falls.push(row.line);
      pulls.push(current);
      current = [];
    }
    current.push(row);
  }
  pulls.push(current);
  const repairs =
    falls.length === 0
      ? []
      : [`the speed starts again at ${lineList(falls)}: taken as the start of another pull`];
  return { pulls: pulls.map((group) => ({ name: null, rows: group })), repairs };
}

/** Whether a row is the first of another pull than the rows before it. */
function startsPull(before: readonly DynoRow[], row: DynoRow, following: DynoRow | undefined): boolean {
  const last = before[before.length - 1].rpm.value;
  const span = Math.abs(last - before[0].rpm.value);
  const fall = last - row.rpm.value;
  // The second speed of a pull may be the first fall of one run from high speed to low, in steps of any size.
  const next = following?.rpm.value ?? Number.NEGATIVE_INFINITY;
  const falling =
    before.length > 1 ? before[1].rpm.value < before[0].rpm.value : fall > 0 && next < row.rpm.value;
  const startsAgain = (falling ? -fall : fall) > Math.max(NEW_PULL.least, NEW_PULL.share * span);
  // A blank line alone is none: some sheets have one after every row.
  return startsAgain || (row.parted && fall > 0 && !falling);
}

export interface OrderResult {
  readonly points: readonly PullPoint[];
  readonly repairs: readonly string[];
  /** Its rows fall from high speed to low. */
  readonly turned: boolean;
  /** What can't be repaired. */
  readonly fault: { readonly line: number; readonly message: string; readonly hint: string } | null;
}

/** Puts a pull in order of speed: sorts, averages repeated speeds, averages a logger's rows over steps. */
export function orderPull(rows: readonly DynoRow[], label: string): OrderResult {
  const repairs: string[] = [];
  const turned = rows.length > 1 && rows[rows.length - 1].rpm.value < rows[0].rpm.value;
  const upward = turned ? [...rows].reverse() : rows;
  if (turned) repairs.push(`${label}falls from high speed to low: turned round`);
  const many = rows.length > MAX_POINTS;
  const falls = upward
    .filter((row, i) => i > 0 && row.rpm.value < upward[i - 1].rpm.value)
    .map((row) => row.line);
  if (falls.length > 0 && falls.length > MOST_FALLS * rows.length && !many) {
    const message = `has speeds that rise and fall at ${lineList(falls)}`;
    return {
      points: [],
      repairs,
      turned,
      fault: {
        line: falls[0],
        message,
        hint: 'separate pulls by blank lines, or number them in a column `pull`',
      },
    };
  }
  const sorted = [...upward].sort((a, b) => a.rpm.value - b.rpm.value);
  if (falls.length > 0 && !many)
    repairs.push(`${label}speed falls at ${lineList(falls)}: put in order of speed`);
  const groups: DynoRow[][] = [];
  for (const row of sorted) {
    const last = groups[groups.length - 1];
    const same =
      last !== undefined &&
      (many
        ? Math.round(row.rpm.value / BIN) === Math.round(last[0].rpm.value / BIN)
        : row.rpm.value === last[0].rpm.value);
    if (same) last.push(row);
    else groups.push([row]);
  }
  if (many) {
    repairs.push(`${label}${counted(rows.length, 'row')} averaged over steps of ${BIN} rpm`);
  } else {
    const repeated = groups.filter((group) => group.length > 1).map((group) => group[1].line);
    if (repeated.length > 0) repairs.push(`${label}speed repeats at ${lineList(repeated)}: averaged`);
  }
  return { points: groups.map(meanPoint), repairs, turned, fault: null };
}

function meanPoint(rows: readonly DynoRow[]): PullPoint {
  const mean = (f: (row: DynoRow) => number): number =>
    rows.reduce((sum, row) => sum + f(row), 0) / rows.length;
  const rpm = mean((row) => row.rpm.value);
  const torque = mean(torqueOf);
  const kinds = new Set(rows.flatMap((row) => [...row.others.keys()]));
  const channels: Partial<Record<DynoColumnKind, number>> = {};
  for (const kind of kinds) {
    const values = rows.flatMap((row) => row.others.get(kind) ?? []);
    channels[kind] = values.reduce((sum, value) => sum + value, 0) / values.length;
  }
  return { rpm, torqueNm: torque, powerKw: powerOf(torque, rpm), channels };
}

/** Torque as printed, or from power where the sheet gives no other [N m]. */
export function torqueOf({ rpm, torque, power }: DynoRow): number {
  return torque?.value ?? torqueOfPower(power?.value ?? Number.NaN, rpm.value);
}
