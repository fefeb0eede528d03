/** The octane number of a fuel where it burns, beside the one on its pump. */
import type { Fuel } from '../combination/combination.ts';
import { temperatureAtPressure } from '../gas/compress.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { AUDIBLE_MARGIN, motorMethodShare, octaneIndex, SHARE_PRESSURE } from '../processes/knock.ts';
import { researchRating } from './researchRating.ts';

/** Octane numbers of one fuel. */
export interface FuelOctane {
  /** Of the reference fuel that the standard engine's knock begins with where this one can just be heard in this charge. */
  readonly here: number;
  /** On the pump, (R + M) / 2: what octane numbers are told in. */
  readonly pump: number;
}

/** Charge when the intake valve closed. */
export interface ClosedCharge {
  readonly closingPressure: number;
  readonly closingTemperature: number;
  readonly residual: number;
}

/**
 * Octane numbers of a fuel for a charge: the hotter its end gas at a given pressure, the more the motor number counts. A
 * charge that is no gas, of a march that was lost, leaves the number of the pump.
 */
export function fuelOctane(fuel: Fuel, tables: GasTables, charge: ClosedCharge): FuelOctane {
  const { researchOctane: ron, motorOctane: mon } = fuel;
  const { closingPressure: p, closingTemperature: T, residual } = charge;
  const pump = octaneIndex(ron, mon);
  if (!(p > 0 && T > 0)) return { here: pump - AUDIBLE_MARGIN, pump };
  const rating = researchRating(fuel);
  const share = motorMethodShare(
    temperatureAtPressure(tables, T, p, residual, SHARE_PRESSURE),
    rating.temperature,
  );
  return { here: octaneIndex(rating.octane, mon, share) - AUDIBLE_MARGIN, pump };
}
