/** An engine as it stands at one speed: variable valve timing and a mixture that goes with speed. */
import { linearTable } from '../numerics/interpolate.ts';
import type { BySpeed, Combination } from './combination.ts';

/**
 * The combination with the values it has at a crank speed [1/min]: straight lines between the speeds given, the first and the
 * last value beyond them. The same object where nothing goes with speed.
 */
export function atSpeed(combination: Combination, rpm: number): Combination {
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
