/** A sheet of pressures by crank angle: what sensors in runner, primary or cylinder saw of one cycle. */
import { BAR, STANDARD_ATMOSPHERE } from '../base/constants.ts';
import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import { parseQuantity } from '../base/units.ts';
import type { Problem } from '../combination/problem.ts';
import type { PressurePlace } from '../forecast/pressureTrace.ts';
import { type Fail, sheetProblem } from '../reading/sheet/sheetProblem.ts';
import { type Column, readTable, type Table } from '../reading/sheet/table.ts';
import { type PressureMeta, readPressureMeta, type Sensor } from './pressureMeta.ts';

/** What one sensor saw; plain and serialisable. */
export interface MeasuredPressure {
  /** Which gas. */
  readonly place: PressurePlace;
  /** From the valve along the pipe [m]; 0 in the cylinder. */
  readonly fromValveM: number;
  /** Crank angle after the cylinder's firing top centre [deg], rising within -360 to 360. */
  readonly angleDeg: readonly number[];
  /** As many: absolute, or above the barometer where `reference` is `gauge` [Pa]. */
  readonly pressurePa: readonly number[];
  /** What the pressures count from. */
  readonly reference: 'absolute' | 'gauge';
}

/** A sheet of one cylinder at one speed. */
export interface PressureSheet {
  /** Name of the file. */
  readonly name: string;
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Number of the cylinder, from 1. */
  readonly cylinder: number;
  /** Barometer that gauges count from [Pa]; null where the sheet doesn't say. */
  readonly barometerPa: number | null;
  /** One a column. */
  readonly traces: readonly MeasuredPressure[];
  /** What was taken for granted, for people. */
  readonly notes: readonly string[];
}

/** Fewest points that show a wave. */
const MIN_POINTS = 36;
/** Pressures worth believing, absolute [Pa]. */
const MOST_PRESSURE: number = 300 * BAR;
const WORDS = ['deg', 'degrees', 'crank', 'pressure', 'intake', 'exhaust', 'cylinder'];

/**
 * Reads a sheet of pressures, CSV or TSV: an angle column `crank deg` and a column for each sensor, `intake kPa`, `exhaust psi` or
 * `cylinder bar`. Lines above it say what the figures can't: `# speed: 5500 rpm`, `# zero: firing top centre`,
 * `# pressures: absolute`, `# exhaust from valve: 12 in`. What is missing of them is asked for.
 *
 * @example
 * ```ts
 * const read = readPressureSheet(text, { name: 'exhaust.csv' });
 * if (read.ok) console.log(read.value.traces[0].place);
 * ```
 */
export function readPressureSheet(
  text: string,
  options: { readonly name: string },
): Result<PressureSheet, Problem> {
  if (typeof text !== 'string')
    throw new DomainError('text', typeof text, 'the text of a file, read as UTF-8');
  const { name } = options;
  const read = readTable(text, name, WORDS);
  if (!read.ok) return read;
  const table = read.value;
  const problems: Problem[] = [];
  const fail: Fail = (line, code, message, hint = null) => {
    problems.push(sheetProblem(name, line, code, message, hint));
  };
  const sensors = sensorsOf(table, fail);
  const angles = anglesOf(table, fail);
  const meta = readPressureMeta(table, sensors, fail);
  if (problems.length > 0 || angles === null) return { ok: false, problems };
  const traces = sensors.map((sensor) => traceOf(table, sensor, angles, meta, fail));
  if (problems.length > 0) return { ok: false, problems };
  const { rpm, cylinder, barometerPa } = meta;
  const notes =
    cylinder === null ? ["taken as cylinder 1, since the sheet names none: '# cylinder: 1' does"] : [];
  return { ok: true, value: { name, rpm, cylinder: cylinder ?? 1, barometerPa, traces, notes } };
}

const PLACES: readonly (readonly [PressurePlace, readonly string[]])[] = [
  ['intake', ['intake', 'inlet', 'runner']],
  ['exhaust', ['exhaust', 'primary', 'header']],
  ['cylinder', ['cylinder', 'combustion', 'chamber']],
];

function sensorsOf(table: Table, fail: Fail): readonly Sensor[] {
  const hint = "name columns by place and unit: 'intake kPa', 'exhaust psi', 'cylinder bar'";
  const sensors = table.columns.flatMap((column): Sensor[] => {
    const place = PLACES.find(([, words]) => words.some((word) => column.words.includes(word)))?.[0];
    const scale = place === undefined ? null : unitOf(column);
    if (place === undefined || isAngle(column)) return [];
    if (scale === null) {
      fail(
        table.headerLine,
        'unit-missing',
        `has a column '${column.header}' without a unit of pressure`,
        hint,
      );
      return [];
    }
    return [{ column, place, ...scale }];
  });
  const problem = sensors.find(({ place }, i) => sensors.findIndex((other) => other.place === place) !== i);
  if (problem !== undefined)
    fail(
      table.headerLine,
      'sheet-columns',
      `has two columns of the ${problem.place}`,
      'one sheet a sensor, then',
    );
  if (sensors.length === 0) fail(table.headerLine, 'sheet-columns', 'has no column of pressures', hint);
  return sensors;
}

function unitOf({ unit }: Column): Pick<Sensor, 'factor' | 'reference'> | null {
  const plain = unit.replace(/^psi[ag]$/u, 'psi');
  const read =
    plain === ''
      ? null
      : parseQuantity(`1 ${plain === 'kpa' ? 'kPa' : plain === 'mpa' ? 'MPa' : plain}`, 'pressure');
  if (read === null || !read.ok) return null;
  const reference = unit === 'psia' ? 'absolute' : unit === 'psig' ? 'gauge' : null;
  return { factor: read.value.kept, reference };
}

function isAngle({ unit }: Column): boolean {
  return unit === 'deg' || unit === 'degrees';
}

/** Crank degrees of each row as written; null for a blank. */
function anglesOf(table: Table, fail: Fail): readonly (number | null)[] | null {
  const column = table.columns.find(isAngle);
  if (column === undefined) {
    fail(table.headerLine, 'sheet-columns', 'has no angle column', "name it 'crank deg'");
    return null;
  }
  const toCrank = column.words.includes('cam') ? 2 : 1;
  const angles = column.values.map((value) => (value === null ? null : toCrank * value));
  let last = Number.NEGATIVE_INFINITY;
  for (const [row, angle] of angles.entries()) {
    if (angle === null) continue;
    if (!(angle > last && Math.abs(angle) <= 1440)) {
      const message =
        angle > last
          ? `has the impossible angle ${angle}`
          : 'has an angle that does not rise from row to row';
      fail(table.lines[row], 'sheet-angle', message, 'one cycle a sheet: take the mean of many');
      return null;
    }
    last = angle;
  }
  const first = angles.find((angle) => angle !== null) ?? 0;
  if (last - first > 720 + 1e-6) {
    fail(
      table.headerLine,
      'sheet-angle',
      'spans more than 720 crank deg',
      'one cycle a sheet: take the mean of many',
    );
    return null;
  }
  return angles;
}

function traceOf(
  table: Table,
  { column, place, factor, reference }: Sensor,
  angles: readonly (number | null)[],
  meta: PressureMeta,
  fail: Fail,
): MeasuredPressure {
  const shift = meta.zero === 'firing' ? 0 : -360;
  const points = angles
    .flatMap((angle, row) => {
      const value = column.values[row] ?? null;
      return angle === null || value === null
        ? []
        : [{ angle: wrapped(angle + shift), pressure: factor * value }];
    })
    .sort((a, b) => a.angle - b.angle)
    // 0 and 720 are one angle.
    .filter(({ angle }, i, all) => i === 0 || angle > all[i - 1].angle);
  const from = reference ?? meta.reference ?? 'absolute';
  if (points.length < MIN_POINTS) {
    const message = `has ${points.length} pressures in '${column.header}'`;
    fail(table.headerLine, 'sheet-empty', message, `a cycle needs ${MIN_POINTS} or more`);
  }
  const offset = meta.offsetPa + peggedBy(points, place, meta);
  const least = from === 'gauge' ? -STANDARD_ATMOSPHERE : 0;
  const odd = points.find(
    ({ pressure }) => !(pressure + offset > least && pressure + offset < MOST_PRESSURE),
  );
  if (odd !== undefined) {
    const bar = ((odd.pressure + offset) / BAR).toPrecision(3);
    const hint = 'check unit, pressures: absolute or gauge, and offset';
    fail(
      table.headerLine,
      'out-of-range',
      `has the impossible pressure ${bar} bar ${from} in '${column.header}'`,
      hint,
    );
  }
  return {
    place,
    fromValveM: meta.fromValveM[place] ?? 0,
    angleDeg: points.map(({ angle }) => angle),
    pressurePa: points.map(({ pressure }) => pressure + offset),
    reference: from,
  };
}

/** What a sensor that knows no level has to be raised by, for it to read what it is pegged to [Pa]. */
function peggedBy(
  points: readonly { readonly angle: number; readonly pressure: number }[],
  place: PressurePlace,
  { pegged }: PressureMeta,
): number {
  if (pegged === null || pegged.place !== place || points.length === 0) return 0;
  const nearest = points.reduce((a, b) =>
    Math.abs(wrapped(b.angle - pegged.angleDeg)) < Math.abs(wrapped(a.angle - pegged.angleDeg)) ? b : a,
  );
  return pegged.pressurePa - nearest.pressure;
}

/** Within -360 to 360 [deg]. */
function wrapped(angle: number): number {
  return angle - 720 * Math.floor((angle + 360) / 720);
}
