/** The octane number of a fuel where it burns, beside the one on its pump. */
import type { Fuel } from '../combination/combination.ts';
import { temperatureAtPressure } from '../gas/compress.ts';
import { diluentShare } from '../gas/diluentShare.ts';
import type { GasTables } from '../gas/gasTables.ts';
import {
  AUDIBLE_MARGIN,
  motorMethodShare,
  octaneIndex,
  octaneRequired,
  RATING_DILUENT,
  SHARE_PRESSURE,
} from '../processes/knock.ts';
import { fuelRating } from './fuelRating.ts';

/** Octane numbers of one fuel, and what else of a charge decides what is asked of it. */
export interface FuelOctane {
  /** Of the reference fuel that the standard engine's knock begins with where this one can just be heard in this charge. */
  readonly here: number;
  /** On the pump, (R + M) / 2: what octane numbers are told in. */
  readonly pump: number;
  /** Share of the unburned charge that takes no part in burning, by the mole [-]. */
  readonly diluent: number;
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
  if (!(p > 0 && T > 0)) return { here: pump - AUDIBLE_MARGIN, pump, diluent: RATING_DILUENT };
  const rating = fuelRating(fuel);
  const share = motorMethodShare(
    temperatureAtPressure(tables, T, p, residual, SHARE_PRESSURE),
    rating.temperature,
  );
  return {
    here: octaneIndex(rating.research, rating.motor, share) - AUDIBLE_MARGIN,
    pump,
    diluent: diluentShare(tables, residual),
  };
}

/** By how much a fuel is short of what a charge asks for [-]; below zero: to spare. */
export function octaneShort(knock: number, { here, diluent }: FuelOctane): number {
  return octaneRequired(knock, diluent) - here;
}
