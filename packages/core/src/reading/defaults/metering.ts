/** Carburetor or throttle sized for the air the engine draws at its rated speed. */

import { INCH_OF_MERCURY } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import { areaFromFlow } from '../../geometry/flowSheet.ts';

/** Filling by volume at rated speed used for sizing [-]; production engines rarely exceed 0.90 at torque peak (common practice, no source). */
export const RATED_FILLING = 0.85;
/** Depression a carburetor is sized for [Pa]: 0.7 to 1.2 inHg for street and strip; common practice, no source. */
export const CARBURETOR_DROP: number = 1 * INCH_OF_MERCURY;
/**
 * The same of one or two barrels on an engine as it was made [Pa]: two thirds of what they are rated at, as of four barrels. They are rated at
 * twice the depression since engines with them draw that much at full throttle (common practice, no source).
 */
export const FEW_BARRELS_DROP: number = 2 * INCH_OF_MERCURY;
/** Depression a throttle is sized for [Pa]; from memory. */
export const THROTTLE_DROP: number = 0.5 * INCH_OF_MERCURY;
/** Pressure drop of carburetor ratings [Pa]: 1.5 inHg four barrels, 3.0 inHg one and two (EngineLabs, carburetor series). */
export const RATING_DROPS: { readonly four: number; readonly two: number } = {
  four: 1.5 * INCH_OF_MERCURY,
  two: 3 * INCH_OF_MERCURY,
};
/** Effective over bore area of an open throttle, its shaft and plate in the way [-]; from memory. */
export const THROTTLE_COEFFICIENT = 0.85;
/** Displacement from which four barrels are usual [m3]; from memory. */
export const FOUR_BARREL_DISPLACEMENT = 3e-3;

/** Volume of air an engine draws [m3/s] at a speed [rpm]. */
export function airDemand(displacement: number, rpm: number, filling: number = RATED_FILLING): number {
  return (displacement * rpm * filling) / 120;
}

/** Cylinders that draw one after another without a gap. */
const WITHOUT_GAPS = 4;

/** How much faster than its mean the air of so many cylinders flows while it flows [-]: each draws for a quarter of the time. */
export function drawsByTurns(cylinders: number): number {
  return Math.max(1, WITHOUT_GAPS / cylinders);
}

/** Carburetor or throttle by number of valves. */
export function inductionKind(valves: number): WordEstimate<'carburetor' | 'throttle'> {
  return valves > 2
    ? { value: 'throttle', reason: 'usual with more than two valves' }
    : { value: 'carburetor', reason: 'usual with two valves' };
}

/**
 * Barrels of one carburetor.
 *
 * @param count - carburetors, where the file says: several have no more barrels together than there are cylinders; common practice, no source
 */
export function barrels(displacement: number, cylinders: number, count = 1): Estimate {
  if (cylinders <= 2)
    return {
      value: 1,
      spread: null,
      reason:
        cylinders === 1 ? 'one for one cylinder' : 'usual with two cylinders; common practice, no source',
    };
  const share = Math.max(1, Math.floor(cylinders / count));
  if (count > 1 && share < (displacement > FOUR_BARREL_DISPLACEMENT ? 4 : 2))
    return { value: share, spread: null, reason: 'a barrel a cylinder' };
  return displacement > FOUR_BARREL_DISPLACEMENT
    ? { value: 4, spread: null, reason: 'usual above 3 litres; from memory' }
    : { value: 2, spread: null, reason: 'usual up to 3 litres; from memory' };
}

export function ratingDrop(numberOfBarrels: number): Estimate {
  return numberOfBarrels > 2
    ? {
        value: RATING_DROPS.four,
        spread: null,
        reason: 'what four barrels are rated at; common practice, no source',
      }
    : {
        value: RATING_DROPS.two,
        spread: null,
        reason: 'what one and two barrels are rated at; common practice, no source',
      };
}

/**
 * Bore [m] of a throttle in the runner of one cylinder: no narrower than the runner there, since it takes its whole stream.
 *
 * @param area - of the runner [m2]
 */
export function runnerThrottleDiameter(area: number): Estimate {
  const value = Math.sqrt((4 * area) / Math.PI);
  return { value, spread: 0.08 * value, reason: 'as wide as the runner where it stands; from memory' };
}

/**
 * Rating [m3/s] of each of `count` carburetors that costs {@link CARBURETOR_DROP} at the rated demand, or {@link FEW_BARRELS_DROP}.
 *
 * @param drop - that it is rated at [Pa]
 * @param use - shared by cylinders; `few`: by one or two barrels, and nothing speaks for another carburetor than the engine was made with;
 * `alone`: a barrel for each cylinder, which has to bear the stream of that one while it draws
 */
export function carburetorRating(
  demand: number,
  drop: number,
  count: number,
  use: 'shared' | 'few' | 'alone',
): Estimate {
  const value = (demand / count) * Math.sqrt(drop / (use === 'shared' ? CARBURETOR_DROP : FEW_BARRELS_DROP));
  return { value, spread: 0.15 * value, reason: RATING_REASONS[use] };
}

const RATING_REASONS = {
  shared:
    'costs 1.0 inHg, 3.4 kPa, at rated speed with 85 % filling, the middle of street and strip practice',
  few: 'costs 2.0 inHg, 6.8 kPa, at rated speed with 85 % filling, usual for one and two barrels as engines are made; common practice, no source',
  alone: 'costs 2.0 inHg, 6.8 kPa, at rated speed while its cylinder draws; from memory',
} as const;

/** Effective area [m2] of throttles, all together, that pass so much air [m3/s] at {@link THROTTLE_DROP}. */
export function throttleArea(demand: number): number {
  return areaFromFlow(demand, THROTTLE_DROP);
}

/** Bore [m] of each of `count` throttles by the effective area of all [m2]. */
export function throttleDiameter(effective: number, count: number): Estimate {
  const area = effective / THROTTLE_COEFFICIENT / count;
  const value = Math.sqrt((4 * area) / Math.PI);
  return {
    value,
    spread: 0.08 * value,
    reason: 'costs 0.5 inHg, 1.7 kPa, at rated speed with 85 % filling; from memory',
  };
}

/** Hole into an airbox [m]. */
export function airboxInlet(demand: number): Estimate {
  const { value } = throttleDiameter(throttleArea(demand), 1);
  return {
    value,
    spread: 0.15 * value,
    reason: 'costs no more than a throttle for the whole engine; from memory',
  };
}

/** Rating drop of an air cleaner whose sheet does not say [Pa]. */
export function airCleanerDrop(): Estimate {
  return {
    value: RATING_DROPS.four,
    spread: null,
    reason: 'air cleaners are rated like four-barrel carburetors; common practice, no source',
  };
}
