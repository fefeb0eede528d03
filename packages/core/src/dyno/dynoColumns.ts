/** The columns of a dyno sheet: what a header cell names, in which unit. */
import { type DynoDimension, type DynoUnit, dynoUnit, isDynoUnit } from '../base/dynoUnits.ts';

/** What is read of a dyno sheet besides speed, torque and power; keys carry the unit. */
export const DYNO_CHANNELS = [
  'airflowKgPerH',
  'fuelKgPerH',
  'lambda',
  'airFuelRatio',
  'manifoldVacuumKpa',
  'manifoldPressureKpa',
  'bsfcGPerKwh',
  'volumetricEfficiency',
  'sparkDegBtdc',
  'airTemperatureK',
  'oilTemperatureK',
  'waterTemperatureK',
  'exhaustTemperatureK',
  'fuelTemperatureK',
  'oilPressureKpa',
  'fuelPressureKpa',
  'barometerKpa',
  'vapourPressureKpa',
] as const;

/** One of the further columns. */
export type DynoChannel = (typeof DYNO_CHANNELS)[number];

/** What a column is. */
export type DynoColumnKind = 'pull' | 'rpm' | 'torque' | 'power' | DynoChannel;

/** A column that was recognised. */
export interface DynoColumn {
  readonly index: number;
  readonly header: string;
  readonly kind: DynoColumnKind;
  readonly dimension: DynoDimension;
  /** Null where the header gives none. */
  readonly unit: DynoUnit | null;
  /** The header says the figure is as observed, or corrected; null where it is silent. */
  readonly corrected: boolean | null;
  /** The header speaks of the driven wheels. */
  readonly wheel: boolean;
}

/** Names by kind, tried in this order on the header's words joined by single blanks. */
const KINDS: readonly (readonly [DynoColumnKind, DynoDimension, RegExp])[] = [
  ['bsfcGPerKwh', 'specific-consumption', /\b(bsfc|brake specific)\b/u],
  ['pull', 'ratio', /^(pull|run|pull no|run no|pull number|run number|test)$/u],
  ['vapourPressureKpa', 'pressure', /\b(vapou?r|vap)\b/u],
  ['barometerKpa', 'pressure', /\b(baro|barometer|barometric|ambient pressure)\b/u],
  ['oilPressureKpa', 'pressure', /\boil\b.*\b(p|press|pressure)\b/u],
  ['fuelPressureKpa', 'pressure', /\bfuel\b.*\b(p|press|pressure)\b/u],
  ['oilTemperatureK', 'temperature', /\boil\b.*\b(t|temp|temperature)\b/u],
  ['fuelTemperatureK', 'temperature', /\bfuel\b.*\b(t|temp|temperature)\b/u],
  ['waterTemperatureK', 'temperature', /\b(water|coolant)\b/u],
  ['exhaustTemperatureK', 'temperature', /\b(egt|exhaust (t|temp|temperature|gas temperature))\b/u],
  ['airTemperatureK', 'temperature', /\b(air|inlet|intake|carb|cell|room)\b.*\b(t|temp|temperature)\b/u],
  ['airFuelRatio', 'ratio', /\b(afr|a f|air fuel|air fuel ratio)\b/u],
  ['lambda', 'ratio', /\blambda\b/u],
  ['volumetricEfficiency', 'ratio', /\b(ve|vol eff|volumetric efficiency|filling)\b/u],
  ['sparkDegBtdc', 'angle', /\b(spark|timing|advance|ignition)\b/u],
  ['manifoldVacuumKpa', 'pressure', /\b(vac|vacuum|depression)\b/u],
  ['manifoldPressureKpa', 'pressure', /\b(map|manifold( absolute)? pressure)\b/u],
  ['torque', 'torque', /\b(torque|tq|trq)\b/u],
  ['power', 'power', /\b(power|pwr|hp|bhp|whp|kw|horsepower)\b/u],
  ['rpm', 'speed', /\b(rpm|engine speed|revs?|speed)\b/u],
  ['fuelKgPerH', 'mass-flow', /\bfuel\b/u],
  ['airflowKgPerH', 'mass-flow', /\b(air|airflow)\b/u],
];

const OBSERVED = /\b(obs|observed|uncorrected|raw|measured)\b/u;
const CORRECTED = /\b(corr?|corrected|j607|j1349|sae)\b/u;
/** Speed, torque or power of something else than the crank, or no figure of a pull at all. */
const NOT_THE_CRANK =
  /\b(friction|loss|losses|motoring|driveshaft|roller?|turbo|vehicle|target|demand|set ?point|acc|accel|acceleration|rate|pump|fan)\b/u;
/** What a unit alone says of a column whose name says nothing known. */
const BY_UNIT: readonly (readonly [DynoColumnKind, DynoDimension])[] = [
  ['rpm', 'speed'],
  ['torque', 'torque'],
  ['power', 'power'],
];
const WHEEL = /\b(wheel|wheels|whp|rwhp|hub|chassis)\b/u;

/** Longest header cell looked at [characters]. */
const LONGEST_HEADER = 80;

/** What a header cell names; null where it names nothing known. */
export function dynoColumn(header: string, index: number, unitBelow = ''): DynoColumn | null {
  // Longer text is no header, and the patterns below would take their time over it.
  const { name, unit: written } = splitUnit(header.slice(0, LONGEST_HEADER));
  const unitText = written === '' ? unitBelow : written;
  const words = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
  const flags = {
    corrected: OBSERVED.test(words) ? false : CORRECTED.test(words) ? true : null,
    wheel: WHEEL.test(words),
  };
  for (const [kind, dimension, pattern] of KINDS) {
    if (!pattern.test(words)) continue;
    if (isOfTheCrank(kind) && NOT_THE_CRANK.test(words)) return null;
    const unit = unitText === '' ? impliedUnit(kind, words) : dynoUnit(dimension, unitText);
    // A unit of something else: `speed (mph)` is no engine speed.
    if (unit === null && unitText !== '' && !isNumberOf(kind, unitText)) continue;
    return { index, header, kind, dimension, unit, ...flags };
  }
  if (NOT_THE_CRANK.test(words)) return null;
  // `lb-ft` alone, `engine rpm`, `Md (Nm)`, `P [kW]`.
  for (const [kind, dimension] of BY_UNIT) {
    const unit =
      dynoUnit(dimension, unitText) ??
      dynoUnit(dimension, words.replace(/ /gu, '')) ??
      dynoUnit(dimension, header);
    if (unit !== null) return { index, header, kind, dimension, unit, ...flags };
  }
  return null;
}

/** A row of units under the header: every filled cell is one, and none is a number. */
export function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.map(bare).filter((cell) => cell !== '');
  return filled.length > 1 && filled.every((cell) => isDynoUnit(cell));
}

/** The unit in a cell of a unit row, without brackets. */
export function bare(cell: string): string {
  return cell.replace(/[()[\]{}]/gu, '').trim();
}

/** Speeds are in rpm, lambda and the like are plain numbers, `hp` says its own unit. */
function impliedUnit(kind: DynoColumnKind, words: string): DynoUnit | null {
  if (kind === 'rpm') return { factor: 1, offset: 0 };
  if (kind === 'pull' || kind === 'lambda' || kind === 'airFuelRatio') return { factor: 1, offset: 0 };
  if (kind === 'volumetricEfficiency') return { factor: 0.01, offset: 0 };
  if (kind === 'sparkDegBtdc') return { factor: 1, offset: 0 };
  if (kind !== 'power') return null;
  if (/\bkw\b/u.test(words)) return dynoUnit('power', 'kw');
  return /\b[brw]*hp\b/u.test(words) ? dynoUnit('power', 'hp') : null;
}

function isOfTheCrank(kind: DynoColumnKind): boolean {
  return BY_UNIT.some(([of]) => of === kind);
}

function isNumberOf(kind: DynoColumnKind, unit: string): boolean {
  return (kind === 'lambda' || kind === 'airFuelRatio' || kind === 'pull') && !isDynoUnit(unit);
}

/** `torque (lb-ft)`, `torque [Nm]`, `torque, lb-ft`, `torque lb-ft`, `torque_lbft` to name and unit. */
function splitUnit(header: string): { name: string; unit: string } {
  const bracket = /^(.*?)[([{]\s*([^)\]}]*?)\s*[)\]}]\s*$/su.exec(header);
  if (bracket !== null && isDynoUnit(bracket[2])) return { name: bracket[1], unit: bracket[2] };
  const last = /^(.+?)[\s,:]+(\S+)$/su.exec(header.trim()) ?? /^(.+?)_+([^_]+)$/su.exec(header.trim());
  if (last !== null && isDynoUnit(last[2])) return { name: last[1], unit: last[2] };
  if (bracket !== null && /[a-z°%]/iu.test(bracket[2]) && bracket[1].trim() !== '') {
    return { name: bracket[1], unit: bracket[2] };
  }
  return { name: header, unit: '' };
}
