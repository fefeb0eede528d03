/** A dyno sheet: one or more pulls of one engine under one correction standard. */

import { counted } from '../base/counted.ts';
import { DYNO_EXAMPLES, isTradeUnit } from '../base/dynoUnits.ts';
import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import type { UnitSystem } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import { type Fail, sheetProblem } from '../reading/sheet/sheetProblem.ts';
import type { DynoColumn, DynoColumnKind } from './dynoColumns.ts';
import { type DynoLines, readDynoLines } from './dynoLines.ts';
import { type DynoMeta, NO_META, standardNamed } from './dynoMeta.ts';
import { type PullRows, splitPulls, torqueOf } from './dynoPulls.ts';
import { chosenColumns, type DynoRow, lineList, readDynoRows } from './dynoRows.ts';
import { powerFaults, slipOf } from './powerCheck.ts';
import { MIN_POINTS, type Pull, readPull, readRemarks } from './readPull.ts';

/** A dyno sheet; plain and serialisable. */
export interface DynoSheet {
  /** Name of the file. */
  readonly name: string;
  /** Title that the sheet gives itself; null for none. */
  readonly title: string | null;
  /** Standard its torque and power refer to. */
  readonly standard: CorrectionStandard;
  /** What its torque is written in, or its power where it has no torque: pound-feet, or anything else. What is kept is SI anyway. */
  readonly units: UnitSystem;
  /** Its figures are those at the driven wheels; absent: at the engine, as far as the sheet says. */
  readonly atWheels?: true;
  /** In the order of the sheet. */
  readonly pulls: readonly Pull[];
  /** Headers that were not used. */
  readonly ignored: readonly string[];
  /** What was repaired or taken for granted, for people. */
  readonly notes: readonly string[];
}

/** What a dyno brakes. */
const BRAKED = ['torque', 'power'] as const;
/** Shares from common practice, no source: behind an automatic gearbox more. */
const AT_WHEELS =
  'gives figures at the wheels, 10 to 16 % below those of the engine as a rule: what driveline and tyres take is no part of a forecast. Gains in percent stand, and calibrate allows for it';
const RATE_AT_WHEELS =
  'says how fast its pulls went, and nothing is added for it: at the wheels it is part of what driveline and tyres are taken to hold back';

/** Most pulls of one sheet. */
const MOST_PULLS = 200;

/**
 * Reads a dyno sheet, CSV or TSV: columns in any order, units in the headers or in a row below, remarks and `name: value`
 * lines for standard and weather, pulls separated by blank lines or numbered in a column. `standard` stands in where the
 * sheet names none; it must not contradict the sheet.
 *
 * @example
 * ```ts
 * const read = readDynoSheet('# standard: J607\nrpm,torque (lb-ft)\n3000,380\n4000,400', { name: 'pulls.csv' });
 * if (read.ok) console.log(read.value.pulls.length);
 * ```
 */
export function readDynoSheet(
  text: string,
  options: { readonly name: string; readonly standard?: CorrectionStandard | undefined },
): Result<DynoSheet, Problem> {
  if (typeof text !== 'string')
    throw new DomainError('text', typeof text, 'the text of a file, read as UTF-8');
  const { name } = options;
  const read = readDynoLines(text, name);
  if (!read.ok) return read;
  const lines = read.value;
  const problems: Problem[] = [];
  const fail: Fail = (line, code, message, hint = null) => {
    problems.push(sheetProblem(name, line, code, message, hint));
  };
  const opening = readRemarks(lines.rows[0].remarks, NO_META, name, problems);
  const slipped = problems.some(({ code }) => SLIPS_OF_STANDARD.has(code));
  const standard = slipped ? null : standardOf(opening, lines, options.standard, fail);
  const chosen = chosenColumns(lines.columns, standard === 'none' ? 'observed' : 'corrected');
  checkUnits(lines, chosen, fail);
  if (problems.length > 0 || standard === null) return { ok: false, problems };
  const { rows, problems: rowProblems, repairs } = readDynoRows(lines, name, chosen);
  if (rowProblems.length > 0) return { ok: false, problems: rowProblems };
  const driven = rows.filter((row) => torqueOf(row) > 0);
  const split = splitPulls(driven);
  checkPower(rows, fail);
  if (problems.length === 0) checkPulls(lines, driven, split.pulls, fail);
  if (problems.length > 0) return { ok: false, problems };
  const atWheels = opening.atWheels || BRAKED.some((kind) => chosen.get(kind)?.wheel === true);
  const notes = [
    ...repairs,
    ...readingNotes(text, rows),
    ...spokenNote(opening, lines, standard),
    ...split.repairs,
    ...(atWheels ? [AT_WHEELS] : []),
  ];
  const pulls = split.pulls.flatMap((group, index) => {
    const pull = readPull(group, index, split.pulls.length, { opening, standard, name, problems, notes });
    return pull === null ? [] : [pull];
  });
  if (pulls.length === 0 && problems.length === 0) {
    fail(lines.headerLine, 'sheet-empty', `has no pull of ${MIN_POINTS} speeds or more`);
  }
  if (problems.length > 0) return { ok: false, problems };
  if (atWheels && pulls.some(({ rate = 0 }) => rate !== 0)) notes.push(RATE_AT_WHEELS);
  return {
    ok: true,
    value: {
      name,
      title: opening.title,
      standard,
      units: unitsOf(chosen),
      ...(atWheels ? { atWheels } : {}),
      pulls,
      ignored: [...lines.ignored, ...unusedHeaders(lines, chosen)],
      notes: [...new Set(notes)],
    },
  };
}

/** A standard that was named, but not understood, is not also missing. */
const SLIPS_OF_STANDARD: ReadonlySet<string> = new Set(['standard-unknown', 'standard-unclear']);

/** Of columns that were understood and gave way to others of their kind. */
function unusedHeaders({ columns }: DynoLines, chosen: ReadonlyMap<DynoColumnKind, DynoColumn>): string[] {
  return columns.filter((column) => chosen.get(column.kind) !== column).map(({ header }) => header);
}

/** The system that its figures are written in. */
function unitsOf(chosen: ReadonlyMap<DynoColumnKind, DynoColumn>): UnitSystem {
  const unit = chosen.get('torque')?.unit ?? chosen.get('power')?.unit ?? null;
  return unit === null || isTradeUnit(unit) ? 'trade' : 'si';
}

/** The standard that sheet, header or caller states; null, with the reason told, where none does or they disagree. */
function standardOf(
  meta: DynoMeta,
  lines: DynoLines,
  given: CorrectionStandard | undefined,
  fail: Fail,
): CorrectionStandard | null {
  const stated = meta.standard?.value ?? standardInHeader(lines);
  if (given !== undefined && stated !== null && given !== stated) {
    const message = `says its figures refer to ${stated}, the command says ${given}`;
    fail(meta.standard?.line ?? lines.headerLine, 'standard-contradicts', message);
    return null;
  }
  const standard = given ?? stated ?? (meta.spoken === 'unclear' ? null : meta.spoken);
  if (standard === null) {
    const message =
      'does not say which correction standard its torque and power refer to; J607 and J1349 are 4 to 5 % apart';
    const hint =
      'write a line `# standard: J607`, which STP and STD are, or J1349 or none, above the header, or say --standard';
    fail(lines.headerLine, 'standard-missing', message, hint);
  }
  return standard;
}

/** The standard that the header of torque or power names; null for none. */
function standardInHeader({ columns }: DynoLines): 'J607' | 'J1349' | null {
  const words = columns
    .filter(({ kind }) => kind === 'torque' || kind === 'power')
    .map(({ header }) => standardNamed(header.replace(/[_-]/gu, ' ')));
  return words.find((word) => word === 'J607' || word === 'J1349') ?? null;
}

/** That a title or remark alone speaks of a standard: it was taken, or gave way to the command. */
function spokenNote(meta: DynoMeta, lines: DynoLines, standard: CorrectionStandard): readonly string[] {
  const { spoken } = meta;
  if (spoken === null || spoken === 'unclear' || meta.standard !== null || standardInHeader(lines) !== null)
    return [];
  return spoken === standard
    ? [`takes ${spoken} for its standard, since a title or remark speaks of it`]
    : [`speaks of ${spoken}, but is read as ${standard}, as the command says: they are 4 to 5 % apart`];
}

/** Power must be torque times speed, row by row. */
function checkPower(rows: readonly DynoRow[], fail: Fail): void {
  const faults = powerFaults(rows);
  if (faults.length === 0) return;
  const both = rows.filter((row) => row.torque !== null && row.power !== null).length;
  const off = faults.slice(0, 5).map(({ ratio }) => `${((ratio - 1) * 100).toFixed(1)} %`);
  const where = lineList(faults.map(({ line }) => line));
  const message = `has power that is not torque times speed at ${where} (off by ${off.join(', ')})`;
  const hint = slipOf(faults, both) ?? 'hp = lb-ft x rpm / 5252, kW = Nm x rpm / 9549';
  fail(faults[0].line, 'power-torque', message, hint);
}

/** There must be rows with torque, and no more pulls than one engine makes. */
function checkPulls(
  { headerLine }: DynoLines,
  driven: readonly DynoRow[],
  pulls: readonly PullRows[],
  fail: Fail,
): void {
  if (driven.length === 0)
    fail(headerLine, 'sheet-empty', 'has no row with speed and positive torque or power');
  else if (pulls.length > MOST_PULLS) {
    const message = `holds ${pulls.length} pulls, at most ${MOST_PULLS} are read`;
    fail(headerLine, 'sheet-pulls', message, 'keep one engine and one day a sheet');
  }
}

/** What was left out or can't be known of a sheet that is sound, for people. */
function readingNotes(text: string, rows: readonly DynoRow[]): readonly string[] {
  const dropped = rows.filter((row) => !(torqueOf(row) > 0)).map((row) => row.line);
  return [
    ...(text.includes('\uFFFD')
      ? ['has letters that are not UTF-8 and could not be read; its numbers are sound']
      : []),
    ...(dropped.length > 0
      ? [`${counted(dropped.length, 'row')} without positive torque left out: ${lineList(dropped)}`]
      : []),
  ];
}

function checkUnits(lines: DynoLines, chosen: ReadonlyMap<DynoColumnKind, DynoColumn>, fail: Fail): void {
  for (const kind of ['rpm', 'torque', 'power'] as const) {
    const column = chosen.get(kind);
    if (column === undefined || column.unit !== null) continue;
    const hint = `write it like '${column.header} (${DYNO_EXAMPLES[column.dimension]})'`;
    fail(lines.headerLine, 'unit-missing', `has no unit in the header '${column.header}'`, hint);
  }
}
