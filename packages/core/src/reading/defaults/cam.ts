/** What a cam card leaves out: separation, installed angle, lift, exhaust duration, checking height. */
import { INCH } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { Lifter } from '../schema/camSection.ts';
import type { Make } from './make.ts';

/** Lobe separation of performance and of production cams [cam deg]; common practice, no source. Production: 110 to 116. */
export const SEPARATION = 110;
export const PRODUCTION_SEPARATION = 112;
/** Advance ground into most cams [crank deg]; common practice, no source. */
export const ADVANCE = 4;
/** Exhaust duration above intake with two valves [crank deg]; common practice, no source. Multi-valve heads need none. */
export const EXHAUST_EXTRA = 6;
/** Lifter rise at which hydraulic and solid cams are advertised [m] (common practice, no source). Makers differ. */
export const CHECKING_HEIGHT: { readonly hydraulic: number; readonly solid: number } = {
  hydraulic: 0.006 * INCH,
  solid: 0.02 * INCH,
};
/**
 * Valve lift over valve head diameter at 224 deg at 0.050 in [-], and how it grows with duration.
 *
 * 0.477 in on a 1.94 in valve is 0.246 at 224 deg (common practice, no source); a race cam of 268 deg lifts 0.32 diameters, hence the power 1.5.
 * Small valves in multi-valve heads are lifted 15 % further for their size (from memory).
 */
export const LIFT_REFERENCE = { ratio: 0.246, duration: 224, power: 1.5, multiValve: 1.15 } as const;

/** Least lobe lift an estimate gives [m]: a duration at 0.050 in needs a lobe that goes beyond it. Tiny engines only. */
export const LEAST_LOBE_LIFT: number = 0.06 * INCH;

/** Rated speed above which no engine is taken to have hydraulic lifters [rpm]: they pump up at 6500 to 7000 (common practice, no source). */
export const HYDRAULIC_UP_TO = 7000;

/**
 * Lifter by number of valves; a stated lash means solid, and so does a rated speed that hydraulic ones don't follow.
 *
 * @param rated - speed of rated power as the file states it [rpm]
 */
export function lifter(
  valves: number,
  lash: number | undefined,
  rated: number | undefined,
): WordEstimate<Lifter> {
  if (lash !== undefined && lash > 0) return { value: 'solid-flat', reason: 'solid, since a lash is stated' };
  if (valves > 2) return { value: 'solid-flat', reason: 'overhead cams ride on flat faces' };
  return rated !== undefined && rated > HYDRAULIC_UP_TO
    ? {
        value: 'solid-flat',
        reason: `rated above ${HYDRAULIC_UP_TO} rpm, where hydraulic lifters pump up; common practice, no source`,
      }
    : { value: 'hydraulic-flat', reason: 'usual with two valves; from memory' };
}

/** Lobe separation [cam deg]. */
export function separation(make: Make): Estimate {
  return make === 'production'
    ? {
        value: PRODUCTION_SEPARATION,
        spread: 2,
        reason: 'usual for production cams; common practice, no source',
      }
    : { value: SEPARATION, spread: 2, reason: 'usual; common practice, no source' };
}

/** How far the lobes are ground ahead [crank deg]. */
export function advance(): Estimate {
  return { value: ADVANCE, spread: 2, reason: 'ground into most cams; common practice, no source' };
}

/** Duration of the exhaust lobe at 0.050 in by that of the intake [crank deg], of an engine with so many valves a cylinder. */
export function exhaustDuration(intake: number, valves: number): Estimate {
  return valves > 2
    ? { value: intake, spread: 4, reason: 'as the intake' }
    : { value: intake + EXHAUST_EXTRA, spread: 4, reason: 'intake plus 6 deg; common practice, no source' };
}

/** Lifter rise that an advertised duration is read at [m]. */
export function checkingHeight(kind: Lifter): Estimate {
  return kind.startsWith('hydraulic')
    ? {
        value: CHECKING_HEIGHT.hydraulic,
        spread: 0.002 * INCH,
        reason: 'usual for hydraulic lifters (common practice, no source); makers differ',
      }
    : {
        value: CHECKING_HEIGHT.solid,
        spread: 0.004 * INCH,
        reason: 'usual for solid lifters (common practice, no source); makers differ',
      };
}

/**
 * Lift at the valve before lash [m].
 *
 * @param valve - its diameter [m]
 * @param durationAt050 - of its lobe [crank deg]
 * @param valves - of a cylinder, both sides together
 */
export function estimatedLift(valve: number, durationAt050: number, valves: number): Estimate {
  const { ratio, duration, power, multiValve: extra } = LIFT_REFERENCE;
  const value = valve * ratio * (durationAt050 / duration) ** power * (valves > 2 ? extra : 1);
  return {
    value,
    spread: 0.08 * value,
    reason: 'lift over valve diameter 0.246 at 224 deg, to the power 1.5 of duration; from memory',
  };
}
