/** What lines above a sheet of pressures say: speed, where angles and pressures count from, where the sensors sat. */
import { type Dimension, parseQuantity } from '../base/units.ts';
import type { PressurePlace } from '../forecast/pressureTrace.ts';
import { nearestName } from '../reading/nearestName.ts';
import type { Fail } from '../reading/sheet/sheetProblem.ts';
import type { Column, Table } from '../reading/sheet/table.ts';

/** A column of pressures. */
export interface Sensor {
  readonly column: Column;
  readonly place: PressurePlace;
  /** Pascals of one of its unit. */
  readonly factor: number;
  /** What its unit says it counts from; null where it says nothing. */
  readonly reference: 'absolute' | 'gauge' | null;
}

/** What is said once for a sheet. */
export interface PressureMeta {
  /** [1/min]. */
  readonly rpm: number;
  readonly cylinder: number | null;
  /** Top centre that angles count from. */
  readonly zero: 'firing' | 'gas-exchange';
  readonly reference: 'absolute' | 'gauge' | null;
  readonly barometerPa: number | null;
  /** Added to every pressure [Pa]. */
  readonly offsetPa: number;
  /** Pressure that a sensor without a level of its own is set to, at an angle after firing top centre. */
  readonly pegged: {
    readonly place: PressurePlace;
    readonly pressurePa: number;
    readonly angleDeg: number;
  } | null;
  readonly fromValveM: Readonly<Partial<Record<PressurePlace, number>>>;
}

const KEYS = [
  'speed',
  'cylinder',
  'zero',
  'pressures',
  'barometer',
  'offset',
  'pegged',
  'intake from valve',
  'exhaust from valve',
] as const;
type Key = (typeof KEYS)[number];

interface Said {
  readonly line: number;
  readonly text: string;
}

/** Reads the lines `# name: value`, and asks for what the figures can't be read without. */
export function readPressureMeta(table: Table, sensors: readonly Sensor[], fail: Fail): PressureMeta {
  const said = linesOf(table, fail);
  const quantity = (key: Key, dimension: Dimension): number | null => {
    const at = said.get(key);
    if (at === undefined) return null;
    const read = parseQuantity(at.text, dimension);
    if (read.ok) return read.value.kept;
    const [{ code, message, hint }] = read.problems;
    fail(
      at.line,
      code === 'unit-missing' ? 'unit-missing' : 'invalid',
      `says ${key}, which ${message}`,
      hint,
    );
    return null;
  };
  const ask = (key: Key, message: string, hint: string): void => {
    if (!said.has(key)) fail(table.headerLine, 'pressure-unclear', message, hint);
  };
  ask('speed', 'does not say at which speed', "write '# speed: 5500 rpm' above");
  ask(
    'zero',
    'does not say which top centre its angles count from',
    "write '# zero: firing top centre' or '# zero: gas-exchange top centre' above",
  );
  const known = sensors.every(({ reference }) => reference !== null);
  if (!known)
    ask(
      'pressures',
      'does not say what its pressures count from',
      "write '# pressures: absolute' or '# pressures: gauge' above",
    );
  for (const { place } of sensors)
    if (place !== 'cylinder')
      ask(
        `${place} from valve`,
        `does not say where the ${place} sensor sat`,
        `write '# ${place} from valve: 12 in' above, along the pipe`,
      );
  const zero = oneOf(said.get('zero'), 'zero', ZEROS, fail);
  return {
    rpm: quantity('speed', 'speed') ?? 0,
    cylinder: cylinderOf(said.get('cylinder'), fail),
    zero: zero ?? 'firing',
    reference: oneOf(said.get('pressures'), 'pressures', REFERENCES, fail),
    barometerPa: quantity('barometer', 'pressure'),
    offsetPa: quantity('offset', 'pressure') ?? 0,
    pegged: peggedOf(said.get('pegged'), sensors, zero === 'gas-exchange' ? -360 : 0, fail),
    fromValveM: {
      intake: quantity('intake from valve', 'length') ?? 0,
      exhaust: quantity('exhaust from valve', 'length') ?? 0,
      cylinder: 0,
    },
  };
}

/** A line that looks like one of these and has a slip in its name is refused: in silence it would be a remark. */
function linesOf(table: Table, fail: Fail): ReadonlyMap<Key, Said> {
  const said = new Map<Key, Said>();
  for (const { line, text } of table.above) {
    const match = /^\s*#?\s*([a-z][a-z -]{2,30}?)\s*:\s*(.+?)\s*$/iu.exec(text);
    if (match === null) continue;
    const name = match[1].toLowerCase();
    const key = KEYS.find((one) => one === name);
    const near = key === undefined ? nearestName(name, KEYS) : null;
    if (near !== null) fail(line, 'pressure-unclear', `has a line '${name}'`, `did you mean '# ${near}: '?`);
    if (key === undefined) continue;
    if (said.has(key)) fail(line, 'pressure-unclear', `says ${key} twice`, 'keep one of the two');
    said.set(key, { line, text: match[2] });
  }
  return said;
}

const ZEROS: readonly (readonly [PressureMeta['zero'], RegExp])[] = [
  ['firing', /\b(firing|compression|ignition|combustion)\b/iu],
  ['gas-exchange', /\b(gas.?exchange|overlap|exhaust|breathing)\b/iu],
];
const REFERENCES: readonly (readonly ['absolute' | 'gauge', RegExp])[] = [
  ['absolute', /\babs(olute)?\b/iu],
  ['gauge', /\b(gauge|gage|relative)\b/iu],
];

function oneOf<Word extends string>(
  said: Said | undefined,
  key: Key,
  words: readonly (readonly [Word, RegExp])[],
  fail: Fail,
): Word | null {
  if (said === undefined) return null;
  const meant = words.filter(([, pattern]) => pattern.test(said.text));
  if (meant.length === 1) return meant[0][0];
  const choice = words.map(([word]) => (key === 'zero' ? `${word} top centre` : word)).join(' or ');
  fail(said.line, 'pressure-unclear', `says ${key}: '${said.text.slice(0, 30)}'`, `write ${choice}`);
  return null;
}

function cylinderOf(said: Said | undefined, fail: Fail): number | null {
  if (said === undefined) return null;
  if (/^\d{1,2}$/u.test(said.text) && Number(said.text) >= 1) return Number(said.text);
  fail(
    said.line,
    'pressure-unclear',
    `says cylinder: '${said.text.slice(0, 30)}'`,
    'write its number, from 1',
  );
  return null;
}

/** `1.02 bar at 180 deg`, for the cylinder where that is among the sensors. */
function peggedOf(
  said: Said | undefined,
  sensors: readonly Sensor[],
  shift: number,
  fail: Fail,
): PressureMeta['pegged'] {
  if (said === undefined) return null;
  const [pressure = '', angle = ''] = said.text.split(/\bat\b/iu);
  const level = parseQuantity(pressure.trim(), 'pressure');
  const where = parseQuantity(angle.trim(), 'angle');
  const sensor = sensors.find(({ place }) => place === 'cylinder') ?? sensors[0];
  if (level.ok && where.ok && sensor !== undefined)
    return { place: sensor.place, pressurePa: level.value.kept, angleDeg: where.value.kept + shift };
  fail(
    said.line,
    'pressure-unclear',
    `says pegged: '${said.text.slice(0, 30)}'`,
    'write it like 1.02 bar at 180 deg',
  );
  return null;
}
