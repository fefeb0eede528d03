/** Valve sizes by bore, number of valves and chamber. */

import type { Estimate } from '../../combination/ledger.ts';
import type { Side } from '../../combination/sides.ts';
import type { ChamberShape } from '../../geometry/squish.ts';

/** Intake and exhaust valves of a cylinder by the number of valves altogether. */
export function splitValves(perCylinder: number): { readonly intake: number; readonly exhaust: number } {
  const intake = Math.ceil(perCylinder / 2);
  return { intake, exhaust: perCylinder - intake };
}

/**
 * Valve head diameter over bore [-] by number of valves on that side.
 *
 * Heywood, Internal Combustion Engine Fundamentals (1988), table 6.1 (from memory): wedge 0.43 to 0.46 and 0.35 to 0.37,
 * hemispherical 0.48 to 0.5 and 0.41 to 0.43, four-valve pent roof 0.35 to 0.37 and 0.28 to 0.32. The upper ends, since
 * engines that get built are breathed out. Two small intakes beside one exhaust valve, and three intakes, from memory.
 *
 * Four valves as they have been made since about 1985: 36 production engines have 0.391 in the mean, the exhaust of 19 of them 0.340, standard
 * deviations 0.014 (from memory; one read, a 3.4 litre eight of 1998, 32 and 27 mm in 82.4 mm: 0.388 and 0.328, its workshop manual). The textbook's figure is older.
 */
const VALVE_RATIO = {
  wedge: { intake: 0.46, exhaust: 0.37 },
  hemispherical: { intake: 0.49, exhaust: 0.42 },
  four: { intake: 0.39, exhaust: 0.34 },
  pair: { intake: 0.37, exhaust: 0.32 },
  single: { intake: 0.46, exhaust: 0.4 },
  three: { intake: 0.3, exhaust: 0.26 },
} as const;

/** One standard deviation of valve over bore [-]. */
export const VALVE_RATIO_SPREAD = 0.02;

/** Stem over intake valve head diameter [-]: 11/32 in with 2.02 in, 5.5 mm with 33 mm; from memory. */
export const STEM_RATIO = 0.17;

/** Throat over valve head diameter [-]: at most 90 % intake and about 85 % exhaust (common practice, no source). */
export const THROAT_RATIO: Readonly<Record<Side, number>> = { intake: 0.9, exhaust: 0.85 };

/** Diameter of one valve [m]. */
export function valveDiameter(
  bore: number,
  side: Side,
  onSide: number,
  perCylinder: number,
  chamber: ChamberShape,
): Estimate {
  const ratio = VALVE_RATIO[family(onSide, perCylinder, chamber)][side];
  return {
    value: ratio * bore,
    spread: VALVE_RATIO_SPREAD * bore,
    reason:
      perCylinder === 4
        ? `${ratio} of the bore, mean of 36 production engines with four valves (from memory)`
        : `${ratio} of the bore for this number of valves and chamber (Heywood 1988, table 6.1, from memory)`,
  };
}

export function stemDiameter(valve: number): Estimate {
  return { value: STEM_RATIO * valve, spread: 0.02 * valve, reason: '17 % of the valve head; from memory' };
}

export function throatDiameter(valve: number, side: Side): Estimate {
  const ratio = THROAT_RATIO[side];
  return {
    value: ratio * valve,
    spread: 0.02 * valve,
    reason: `${100 * ratio} % of the valve head; common practice, no source`,
  };
}

function family(onSide: number, perCylinder: number, chamber: ChamberShape): keyof typeof VALVE_RATIO {
  if (onSide >= 3) return 'three';
  if (onSide === 2) return perCylinder === 4 ? 'four' : 'pair';
  if (perCylinder > 2) return 'single';
  return chamber === 'hemispherical' ? 'hemispherical' : 'wedge';
}
