/** The production engines of 1985 in tests/data/imports-85.csv, each forecast from the little that the table tells. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';

const FILE = fileURLToPath(new URL('../data/imports-85.csv', import.meta.url));
const CYLINDERS: Readonly<Record<string, number>> = {
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  eight: 8,
  twelve: 12,
};
const IN3 = 0.0254 ** 3;
const HORSEPOWER = 745.69987158227;

/** What the table tells of one engine. Lengths [in], displacement [in3], speed [rpm]. */
export interface TableEngine {
  readonly cylinders: number;
  readonly displacement: number;
  readonly bore: number;
  readonly stroke: number;
  readonly compression: number;
  readonly horsepower: number;
  readonly rpm: number;
  /** Columns `engine-type` and `fuel-system`. */
  readonly type: string;
  readonly fuelSystem: string;
}

/** Rows of the table that are one engine each, and how many were left out and why. */
export interface Population {
  readonly engines: readonly TableEngine[];
  /** The same with rows that show one engine with another displacement. */
  readonly rows: readonly TableEngine[];
  /** The same with the engine that looks supercharged. */
  readonly agreeing: readonly TableEngine[];
  /** Different naturally aspirated gasoline piston engines whose row is complete. */
  readonly unique: number;
  /** Bore and stroke contradict the displacement by more than 3 %. */
  readonly contradictory: number;
  /** The engine of 110 in3 at 7.5:1, which looks like a supercharged one with the wrong label. */
  readonly mislabelled: number;
  /** Shown by another row too, with a displacement that agrees better with the bore and stroke of both. */
  readonly twins: number;
}

/** Reads the table: naturally aspirated gasoline piston engines with a complete row, each once. */
export function population(): Population {
  const [head, ...lines] = readFileSync(FILE, 'utf8').trim().split('\n');
  const names = head.split(',');
  const unique = new Map<string, TableEngine>();
  for (const line of lines) {
    const cells = line.split(',');
    const cell = (name: string): string => cells[names.indexOf(name)];
    if (cell('fuel-type') !== 'gas' || cell('aspiration') !== 'std' || cell('engine-type') === 'rotor')
      continue;
    const engine: TableEngine = {
      cylinders: CYLINDERS[cell('num-of-cylinders')],
      displacement: Number(cell('engine-size')),
      bore: Number(cell('bore')),
      stroke: Number(cell('stroke')),
      compression: Number(cell('compression-ratio')),
      horsepower: Number(cell('horsepower')),
      rpm: Number(cell('peak-rpm')),
      type: cell('engine-type'),
      fuelSystem: cell('fuel-system'),
    };
    const { type: _type, fuelSystem: _fuelSystem, ...numbers } = engine;
    const key = Object.values(numbers);
    if (key.every(Number.isFinite) && !unique.has(key.join())) unique.set(key.join(), engine);
  }
  const agreeing = [...unique.values()].filter((e) => Math.abs(sweptOf(e) / e.displacement - 1) <= 0.03);
  const rows = agreeing.filter((e) => !(e.displacement === 110 && e.compression === 7.5));
  const engines = rows.filter((e) => rows.every((other) => other === e || !betterTwin(other, e)));
  return {
    engines,
    rows,
    agreeing,
    unique: unique.size,
    contradictory: unique.size - agreeing.length,
    mislabelled: agreeing.length - rows.length,
    twins: rows.length - engines.length,
  };
}

/** True where two rows tell the same of all but displacement, and the first of that more rightly. */
function betterTwin(other: TableEngine, e: TableEngine): boolean {
  const alike = (
    ['cylinders', 'bore', 'stroke', 'compression', 'horsepower', 'rpm', 'fuelSystem'] as const
  ).every((key) => other[key] === e[key]);
  const off = (row: TableEngine): number => Math.abs(sweptOf(row) / row.displacement - 1);
  return alike && off(other) < off(e);
}

/** Displacement by bore and stroke [in3]. */
function sweptOf(e: TableEngine): number {
  return (Math.PI / 4) * e.bore * e.bore * e.stroke * e.cylinders;
}

/** Brake mean effective pressure at rated power [bar], by the displacement of the table. */
export function ratedBmep(e: TableEngine): number {
  return (e.horsepower * HORSEPOWER * 120) / (e.rpm * e.displacement * IN3) / 1e5;
}

/** Mean piston speed at rated power [m/s]. */
export function ratedPistonSpeed(e: TableEngine): number {
  return (e.stroke * 0.0254 * e.rpm) / 30;
}

/**
 * The least file that holds what the table tells, run as it was rated: SAE net, in the reference air of SAE J1349, with its
 * accessories, a full exhaust and an air cleaner. Injected or carbureted as the table says.
 *
 * Valves are not in the table: two a cylinder, which nearly all engines of that year had.
 */
export function minimumFile(e: TableEngine): string {
  const barrels = /^([124])bbl$/.exec(e.fuelSystem)?.[1];
  const metering = barrels === undefined ? 'throttle: {}' : `carburetor: { barrels: ${barrels} }`;
  return `
name: an engine of 1985
engine: { bore: ${e.bore} in, stroke: ${e.stroke} in, cylinders: ${e.cylinders}, ratedSpeed: ${e.rpm} rpm }
chamber: { compression: ${e.compression} }
heads: { valvesPerCylinder: 2 }
induction: { ${metering}, airCleaner: ${ratedCleaner(e.displacement * IN3, e.rpm)} }
exhaust: { style: cast, muffler: chambered }
friction: { accessories: true }
weather: { barometer: 99 kPa, temperature: 25 degC, vapourPressure: 0 kPa }
correction: J1349
`;
}

/**
 * The air cleaner of a car, as a value in the file: 0.3 inHg, 1 % of the pressure, at the air drawn at rated power (common practice,
 * no source). SAE net power is measured with it on.
 *
 * @param displacement - [m3]
 */
export function ratedCleaner(displacement: number, rpm: number): string {
  const airflow = (0.85 * displacement * rpm) / 120;
  return `{ flow: ${(airflow * 2118.88).toFixed(1)} cfm, at: 0.3 inHg }`;
}

/** The forecast of one engine at its rated speed. */
export function forecastRated(e: TableEngine, file: string = minimumFile(e)): MarchedPoint {
  const read = readCombination(file);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.path}: ${p.message}`).join('\n'));
  return wholeForecast(read.value, { rpm: [e.rpm] }).points[0];
}

/** Middle value of a list. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return sorted.length % 2 === 0 ? (sorted[half - 1] + sorted[half]) / 2 : sorted[Math.floor(half)];
}
