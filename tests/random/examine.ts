/** Looks at one random engine: whether its forecast ends, adds up, stays within physics and does not depend on how it was asked for. */
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import type { Curve, MarchedPoint } from '../../packages/core/src/forecast/curve.ts';
import { forecast } from '../../packages/core/src/forecast/forecast.ts';
import { indicatedEfficiency } from '../../packages/core/src/forecast/oddFigures.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { numbersIn } from '../physics/engines.ts';
import { fuelAirBound } from './fuelAirBound.ts';
import type { RandomEngine } from './randomEngine.ts';
import type { Relation } from './relations.ts';
import { type Section, type Units, written } from './sizes.ts';

/** What came of an engine. */
export interface Examined {
  /** Refused by the reader with problems, all coded; nothing was forecast. */
  readonly refused: readonly string[];
  readonly curve: Curve | null;
  /** What is wrong, one line each. */
  readonly faults: readonly string[];
  /** Processor time of the forecast [s]. */
  readonly seconds: number;
}

/** Audits within the tolerance of a settled cycle [-]. */
const CLOSED = 1e-4;
/** Processor time that a speed may take, whatever the engine [s]. */
const LONGEST = 60;

/** Where figures leave what engines do, and the code that has to say so. */
const LIMITS: readonly (readonly [string, string, (p: MarchedPoint) => boolean])[] = [
  ['more wall heat than 60 % of the fuel', 'wall-heat-high', (p) => p.heatLossFraction > 0.6],
  ['more residual than half', 'residual-high', (p) => p.residualFraction > 0.5],
  [
    'filling out of 0.1 to 1.4',
    'filling-odd',
    (p) => !(p.volumetricEfficiency >= 0.1 && p.volumetricEfficiency <= 1.4),
  ],
  ['more pressure than parts bear', 'peak-pressure', (p) => p.peakPressureBar > 150],
  [
    'charge or exhaust out of the tables of gas',
    'flow-temperature',
    (p) => !(p.chargeTemperatureK > 200 && p.exhaustTemperatureK > 200 && p.exhaustTemperatureK < 3500),
  ],
];

/** The file of an engine as text. */
export function fileOf(sections: Section, units: Units = 'metric'): string {
  return JSON.stringify(written(sections, units), null, 1);
}

/** @param relations - other ways to ask, and changes that may not help */
export function examine(engine: RandomEngine, relations: readonly Relation[]): Examined {
  const started = process.cpuUsage();
  const seconds = () => {
    const { user, system } = process.cpuUsage(started);
    return (user + system) / 1e6;
  };
  const ended = (rest: Partial<Examined>): Examined => ({
    refused: [],
    curve: null,
    faults: [],
    seconds: seconds(),
    ...rest,
  });
  try {
    const read = readCombination(fileOf(engine.sections));
    if (!read.ok) return ended({ refused: read.problems.map(({ code, path }) => `${code} at ${path}`) });
    const curve = forecast(read.value, { rpm: engine.rpm });
    const spent = seconds();
    const faults = faultsOf(read.value, curve);
    if (spent > LONGEST * engine.rpm.length) faults.push(`took ${spent.toFixed(0)} s`);
    for (const relation of relations) faults.push(...relation(engine, read.value, curve));
    return ended({ curve, faults, seconds: spent });
  } catch (error) {
    return ended({ faults: [`threw ${error instanceof Error ? error.message : String(error)}`] });
  }
}

function faultsOf(combination: Combination, curve: Curve): string[] {
  const faults: string[] = [];
  const codes = new Set(curve.warnings.map(({ code }) => code));
  for (const [path, value] of numbersIn(curve.points))
    if (!Number.isFinite(value)) faults.push(`${path} is ${value}`);
  const bound = fuelAirBound(combination);
  for (const point of curve.points) {
    const at = `at ${point.rpm} rpm`;
    if (point.status === 'lost') {
      if (!codes.has(point.code)) faults.push(`lost without a word ${at}`);
      continue;
    }
    if (point.status === 'unsettled' && !codes.has('not-converged'))
      faults.push(`unsettled without a word ${at}`);
    if (point.status === 'settled')
      for (const name of ['massClosure', 'energyClosure'] as const)
        if (!(Math.abs(point[name]) <= CLOSED)) faults.push(`${name} is ${point[name]} ${at}`);
    for (const [what, code, beyond] of LIMITS)
      if (beyond(point) && !codes.has(code)) faults.push(`${what} without a word ${at}`);
    const efficiency = indicatedEfficiency(combination, point);
    // Of a cycle that draws next to nothing and never repeats, the share says nothing; then a warning has to say so.
    if (efficiency > bound && !(point.status === 'unsettled' && codes.has('efficiency-high')))
      faults.push(
        `makes ${(100 * efficiency).toFixed(1)} % of its fuel work ${at}, the fuel-air cycle ${(100 * bound).toFixed(1)} %`,
      );
  }
  return faults;
}
