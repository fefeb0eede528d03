/** What a calibration is held to, brought to steady running. */
import { powerOf } from '../base/power.ts';
import { heldBackOf, type Turning } from '../dyno/steadySheet.ts';
import type { Aim, CalibrationTarget } from './calibrationTarget.ts';

/**
 * The target as steady running would have given it: torque raised by what the pulls of this combination held back, power by as much times its
 * speed. Speeds of peaks stay: a torque that is the same at every speed moves no peak of torque, and one of power by less than it is read to.
 */
export function steadyTarget(target: CalibrationTarget, combination: Turning): CalibrationTarget {
  const { paces = [], atWheels, aims } = target;
  const heldBack = atWheels === true ? null : heldBackOf(paces, combination);
  if (heldBack === null) return target;
  const raised = (aim: Aim): Aim => {
    if (aim.kind.endsWith('speed')) return aim;
    const added = aim.kind === 'power peak' ? powerOf(heldBack.torqueNm, aim.rpm) : heldBack.torqueNm;
    const measured = aim.measured + added;
    return { ...aim, measured, sigma: (aim.sigma * measured) / aim.measured };
  };
  return { ...target, paces: [], heldBack, aims: aims.map(raised) };
}

/**
 * What each rpm/s would add to torque if the pulls had a rate that nobody states [N m for 1/min/s]; null where one is known, or at the wheels.
 */
export function heldByUnsaidRate(
  { paces = [], atWheels, heldBack }: CalibrationTarget,
  combination: Turning,
): number | null {
  const isKnown =
    heldBack !== undefined || combination.pullRate !== undefined || paces.some(({ rate }) => rate !== null);
  if (isKnown || atWheels === true || paces.length === 0) return null;
  return (
    heldBackOf(
      paces.map((pace) => ({ ...pace, rate: 1 })),
      combination,
    )?.torqueNm ?? null
  );
}
