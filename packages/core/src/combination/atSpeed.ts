/** An engine as it stands at one speed: variable valve timing, a mixture that goes with speed, and what a carburetor makes of it. */
import { linearTable } from '../numerics/interpolate.ts';
import { carburetionAt } from './carburetion.ts';
import type { BySpeed, Combination } from './combination.ts';

/** An engine at one speed. */
export interface StandingEngine extends Combination {
  /** Standard deviation of the equivalence ratio there [-]; absent: the usual one. */
  readonly scatter?: number;
}

/**
 * The combination with the values it has at a crank speed [1/min]: straight lines between the speeds given, the first and the
 * last value beyond them, and its fuel as the venturis leave it. The same object where nothing goes with speed.
 */
export function atSpeed(combination: Combination, rpm: number): StandingEngine {
  const engine = withTables(combination, rpm);
  const carburetion = carburetionAt(engine, rpm);
  if (carburetion === null) return engine;
  const { evaporation, vapour, scatter } = carburetion;
  // The shares are those of its own drops now: without venturis nobody takes them for those of usual ones.
  const { venturiArea: _, ...induction } = engine.induction;
  return { ...engine, induction: { ...induction, evaporation, vapour }, scatter };
}

function withTables(combination: Combination, rpm: number): Combination {
  const { bySpeed, ...engine } = combination;
  if (bySpeed === undefined) return combination;
  const { intake, exhaust, lambda } = engine;
  const { intakeCentreline, exhaustCentreline } = bySpeed;
  return {
    ...engine,
    intake: { ...intake, centreline: valueAtSpeed(intakeCentreline, rpm) ?? intake.centreline },
    exhaust: { ...exhaust, centreline: valueAtSpeed(exhaustCentreline, rpm) ?? exhaust.centreline },
    lambda: valueAtSpeed(bySpeed.lambda, rpm) ?? lambda,
  };
}

function valueAtSpeed(table: BySpeed | undefined, rpm: number): number | undefined {
  if (table === undefined) return undefined;
  return table.rpm.length === 1 ? table.value[0] : linearTable(table.rpm, table.value).valueAt(rpm);
}

/** A value, or of one by speed that in the middle of the speeds: it stands for the table where no speed is in question. */
export function middleOf(value: number | BySpeed): number;
export function middleOf(value: number | BySpeed | undefined): number | undefined;
export function middleOf(value: number | BySpeed | undefined): number | undefined {
  if (typeof value !== 'object') return value;
  const { rpm } = value;
  return valueAtSpeed(value, (rpm[0] + rpm[rpm.length - 1]) / 2);
}
