/** A dyno sheet: one or more pulls of one engine under one correction standard. */

import { counted } from '../base/counted.ts';
import { DYNO_EXAMPLES, isTradeUnit } from '../base/dynoUnits.ts';
import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import type { UnitSystem } from '../combination/combination.ts';
import type { PlainCode, Problem } from '../combination/problem.ts';
import type { CorrectionStandard, Weather } from '../combination/running.ts';
import { brakeFactor } from '../forecast/weatherCorrection.ts';
import { sheetProblem } from '../reading/sheet/sheetProblem.ts';
import type { DynoColumn, DynoColumnKind } from './dynoColumns.ts';
import { type DynoLines, type Remark, readDynoLines } from './dynoLines.ts';
import {
  type DynoMeta,
  impossibleAir,
  NO_META,
  partOfAir,
  readMeta,
  standardNamed,
  weatherOf,
} from './dynoMeta.ts';
import { orderPull, type PullPoint, type PullRows, splitPulls, torqueOf } from './dynoPulls.ts';
import { chosenColumns, type DynoRow, lineList, readDynoRows } from './dynoRows.ts';
import { powerFaults, slipOf } from './powerCheck.ts';

/** One pull, speeds rising. */
export interface Pull {
  /** As the sheet calls it, or its number in the sheet. */
  readonly name: string;
  /** Air the pull was made in; null where the sheet doesn't say. */
  readonly weather: Weather | null;
  /** One a speed, rising. */
  readonly points: readonly PullPoint[];
}

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

/** Fewest speeds that make a pull. */
const MIN_POINTS = 2;
/** Most pulls of one sheet. */
const MOST_PULLS = 200;
/** Printed and computed correction factors may differ by so much [-]. */
const FACTOR_SLACK = 0.006;

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
  const fail = (line: number | null, code: PlainCode, message: string, hint: string | null = null): void => {
    problems.push(sheetProblem(name, line, code, message, hint));
  };
  const opening = readRemarks(lines.rows[0].remarks, NO_META, name, problems);
  // A standard that was named, but not understood, is not also missing.
  const slipped = problems.some(({ code }) => code === 'standard-unknown' || code === 'standard-unclear');
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
  const wheels = atWheels ? [AT_WHEELS] : [];
  const notes = [
    ...repairs,
    ...readingNotes(text, rows),
    ...spokenNote(opening, lines, standard),
    ...split.repairs,
    ...wheels,
  ];
  const pulls = split.pulls.flatMap((group, index) => {
    const pull = pullOf(group, index, split.pulls.length, { opening, standard, name, problems, notes });
    return pull === null ? [] : [pull];
  });
  if (pulls.length === 0 && problems.length === 0) {
    fail(lines.headerLine, 'sheet-empty', `has no pull of ${MIN_POINTS} speeds or more`);
  }
  if (problems.length > 0) return { ok: false, problems };
  const unused = lines.columns
    .filter((column) => chosen.get(column.kind) !== column)
    .map((column) => column.header);
  return {
    ok: true,
    value: {
      name,
      title: opening.title,
      standard,
      units: unitsOf(chosen),
      ...(atWheels ? { atWheels } : {}),
      pulls,
      ignored: [...lines.ignored, ...unused],
      notes: [...new Set(notes)],
    },
  };
}

/** The system that its figures are written in. */
function unitsOf(chosen: ReadonlyMap<DynoColumnKind, DynoColumn>): UnitSystem {
  const unit = chosen.get('torque')?.unit ?? chosen.get('power')?.unit ?? null;
  return unit === null || isTradeUnit(unit) ? 'trade' : 'si';
}

type Fail = (line: number | null, code: PlainCode, message: string, hint?: string | null) => void;

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

function readRemarks(
  remarks: readonly Remark[],
  before: DynoMeta,
  name: string,
  problems: Problem[],
): DynoMeta {
  let meta = before;
  for (const { text, line } of remarks) {
    const read = readMeta(text, line, meta);
    if ('slip' in read) {
      problems.push(sheetProblem(name, line, read.slip.code, read.slip.message, read.slip.hint));
      continue;
    }
    meta = read.meta;
    const impossible = impossibleAir(meta);
    if (impossible !== null) {
      const message = `gives an impossible ${impossible}: '${text.trim().slice(0, 40)}'`;
      problems.push(sheetProblem(name, line, 'out-of-range', message));
      return before;
    }
  }
  return meta;
}

interface PullContext {
  readonly opening: DynoMeta;
  readonly standard: CorrectionStandard;
  readonly name: string;
  readonly problems: Problem[];
  readonly notes: string[];
}

function pullOf(group: PullRows, index: number, of: number, context: PullContext): Pull | null {
  const { opening, standard, name, problems, notes } = context;
  const remarks =
    index === 0 && group.name === null
      ? []
      : group.rows.flatMap((row) => (row.source.line > 0 ? row.source.remarks : []));
  const meta = index === 0 ? opening : readRemarks(remarks, { ...opening, pull: null }, name, problems);
  const pullName = group.name ?? meta.pull ?? String(index + 1);
  const label = of === 1 ? '' : `pull ${pullName}: `;
  const ordered = orderPull(group.rows, label);
  if (ordered.fault !== null) {
    problems.push(
      sheetProblem(name, ordered.fault.line, 'sheet-speed', ordered.fault.message, ordered.fault.hint),
    );
    return null;
  }
  notes.push(...ordered.repairs);
  if (ordered.points.length < MIN_POINTS) {
    notes.push(
      `${label}only ${counted(ordered.points.length, 'speed')}, left out (line ${group.rows[0].line})`,
    );
    return null;
  }
  if (meta.unread.length > 0)
    notes.push(
      `speaks of the air at ${lineList(meta.unread)} in words that were not understood: write it like \`Barometer: 29.35 inHg\``,
    );
  const known = withColumns(meta, group.rows);
  const air = weatherOf(known);
  const part = partOfAir(known);
  if (part !== null) notes.push(part);
  if (air !== null && air.note !== null) notes.push(air.note);
  checkFactor(meta, air?.weather ?? null, standard, notes);
  return { name: pullName, weather: air?.weather ?? null, points: ordered.points };
}

/** Weather from columns where no line gives it: the mean over the pull. */
function withColumns(meta: DynoMeta, rows: readonly DynoRow[]): DynoMeta {
  const mean = (kind: DynoColumnKind): number | null => {
    const values = rows.flatMap((row) => row.others.get(kind) ?? []);
    return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  return {
    ...meta,
    barometer: meta.barometer ?? mean('barometerKpa'),
    temperature: meta.temperature ?? mean('airTemperatureK'),
    vapourPressure: meta.vapourPressure ?? mean('vapourPressureKpa'),
  };
}

/** A printed factor that its standard's own formula does not give for the printed air. */
function checkFactor(
  { factor }: DynoMeta,
  weather: Weather | null,
  standard: CorrectionStandard,
  notes: string[],
): void {
  if (factor === null || weather === null || standard === 'none') return;
  const dry = weather.pressure - weather.vapourPressure;
  const own = brakeFactor(standard, dry, weather.temperature);
  if (Math.abs(own - factor) <= FACTOR_SLACK) return;
  const other = standard === 'J607' ? 'J1349' : 'J607';
  const fits = Math.abs(brakeFactor(other, dry, weather.temperature) - factor) <= FACTOR_SLACK;
  const guess = fits ? `; ${other} gives it, so the standard may be ${other}` : '';
  notes.push(`prints the factor ${factor}, ${standard} gives ${own.toFixed(4)} for its air${guess}`);
}
