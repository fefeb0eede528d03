/** Mixture, burning, walls, friction multipliers, weather, correction: how the engine is run. */

import { BETWEEN_CYLINDERS } from '../../combination/carburetion.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import { J607_REFERENCE, type ReferenceAir, referenceAir } from '../../combination/referenceAir.ts';
import type { CorrectionStandard } from '../../combination/running.ts';
import type { TimingWord } from '../schema/runningSections.ts';
import { COOLANT } from './charge.ts';

/** Mixture of best power [-]: lambda 0.86 to 0.90 (common practice, no source). */
export const LAMBDA = 0.87;
/** Share of the fuel that burns of what could [-]: 0.95 to 0.98; from memory. */
export const BURN_EFFICIENCY = 0.97;
/** Walls of a warm engine at full load [K]; from memory. */
export const WALL_TEMPERATURES = { head: 470, piston: 500, liner: 410 } as const;

/** Relative air-fuel ratio [-]. */
export function lambda(): Estimate {
  return { value: LAMBDA, spread: 0.02, reason: 'best power is 0.86 to 0.90; common practice, no source' };
}

/** Scatter of the mixture between cylinders behind one carburetor [-]. */
export function mixtureScatter(): Estimate {
  return {
    value: BETWEEN_CYLINDERS,
    spread: 0.01,
    reason: 'between 0.04, a radial of nine (NACA TN 583, 1936), and 0.07, eights from memory',
  };
}

export function timing(): WordEstimate<TimingWord> {
  return { value: 'knock-limited', reason: 'best torque as far as the fuel allows' };
}

export function durationMultiplier(): Estimate {
  return {
    value: 1,
    spread: 0.1,
    reason: 'the burn model as it stands, squish included: 3.4 deg in a burn of 34',
  };
}

export function burnEfficiency(): Estimate {
  return { value: BURN_EFFICIENCY, spread: 0.01, reason: '0.95 to 0.98; from memory' };
}

/** Octane numbers that an engine asks for beyond the model's [-]; `heard`: knock that was just audible holds the number. */
export function octaneOffset(by: 'model' | 'heard'): Estimate {
  return by === 'heard'
    ? { value: 0, spread: 1.5, reason: 'set by knock that was just audible; ears and days differ' }
    : {
        value: 0,
        spread: 3,
        reason: 'the knock model as it stands, of a clean engine; deposits ask for 3 to 8 more; from memory',
      };
}

export function wallModel(): WordEstimate<'woschni'> {
  return { value: 'woschni', reason: 'the law most used for spark-ignition engines' };
}

export function wallMultiplier(): Estimate {
  return { value: 1, spread: 0.15, reason: 'the law as printed; printed forms differ by 15 %' };
}

/** Heat goes through a wall by what the gas gives, so that its surface stays as much warmer than the coolant behind it. */
export function wallTemperature(part: keyof typeof WALL_TEMPERATURES, coolant: number = COOLANT): Estimate {
  return {
    value: WALL_TEMPERATURES[part] + coolant - COOLANT,
    spread: 20,
    reason:
      coolant === COOLANT
        ? 'warm engine at full load; from memory'
        : 'as much warmer than this coolant as usual at full load; from memory',
  };
}

export function frictionMultiplier(): Estimate {
  return { value: 1, spread: 0.12, reason: 'the friction model as it stands; a measured curve trims it' };
}

export const ACCESSORIES: { readonly value: boolean; readonly reason: string } = {
  value: false,
  reason: 'off on a stand; common practice, no source',
};

/**
 * Rated speed up to which pumps and alternator turn as on the engines whose drives were measured [rpm]: the formula's own range.
 *
 * A drive's ratio is chosen by the top of the engine's speed: an alternator must not be driven "too fast (over speed) at the upper end of the engine speed
 * range" (Prestolite, Alternator Pulley Selection Guide), at 3 to 1 on diesels governed to 2100 rpm, slightly less on trucks to 3600, 2 to 1 on cars.
 */
export const DRIVEN_UP_TO = 6000;

/** Ratio of the drives over that of an engine rated up to {@link DRIVEN_UP_TO} [-], by the rated speed [rpm]. */
export function driveRatio(ratedSpeed: number): number {
  return Math.min(1, DRIVEN_UP_TO / ratedSpeed);
}

/** Air of a file that says nothing of its day: that of its own standard, so that nothing is corrected. */
function standardAir(standard: CorrectionStandard): { readonly air: ReferenceAir; readonly reason: string } {
  const air = referenceAir(standard);
  return air === null
    ? { air: J607_REFERENCE, reason: 'standard air of SAE J607 practice' }
    : { air, reason: `reference air of ${standard === 'J607' ? 'SAE J607 practice' : 'SAE J1349'}` };
}

/** The reference air is dry, so its barometer is its dry pressure. */
export function barometer(standard: CorrectionStandard): Estimate {
  const { air, reason } = standardAir(standard);
  return { value: air.dryPressure, spread: null, reason };
}

export function airTemperature(standard: CorrectionStandard): Estimate {
  const { air, reason } = standardAir(standard);
  return { value: air.temperature, spread: null, reason };
}

export function vapourPressure(standard: CorrectionStandard): Estimate {
  return { value: 0, spread: null, reason: `${standardAir(standard).reason} is dry` };
}

export function correction(): WordEstimate<CorrectionStandard> {
  return {
    value: 'J607',
    reason: 'most used by engine shops; an unlabelled sheet is 4 to 5 % uncertain, so state it',
  };
}

/** Relative humidity of a room whose sheet gives only temperature. */
export function humidity(): Estimate {
  return { value: 0.4, spread: 0.2, reason: 'nothing is said about humidity; a middling day' };
}
