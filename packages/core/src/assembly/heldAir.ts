/** Air in front of the fuel, built as if it held the mixture. */

import type { Combination } from '../combination/combination.ts';
import { humidAir } from '../gas/air.ts';
import { frozenCv, frozenH } from '../gas/frozenBlend.ts';
import type { ReservoirSpec } from '../network/reservoir.ts';
import { findRoot } from '../numerics/root.ts';
import type { IntakeCharge } from './intakeCharge.ts';

/** What stands in front of the fuel and is built as if it held the mixture, over what it is [-]. */
export interface HeldAir {
  readonly length: number;
  readonly area: number;
  readonly volume: number;
}

/**
 * The network knows no air without fuel in the intake. A pipe of air is built as one of mixture: as much shorter as sound is slower in the mixture, so
 * that waves take their time, and as much wider as its density times sound speed is more, so that they meet the same resistance; a box
 * smaller as its gas is softer. What the stream loses stays the same within a percent.
 */
export function heldAir({
  combination,
  charge,
}: {
  readonly combination: Combination;
  readonly charge: IntakeCharge;
}): HeldAir {
  const { pressure, temperature, vapourPressure } = combination.weather;
  const { tables } = charge;
  const { T } = meteredAir(charge, pressure);
  const gamma = 1 + tables.freshR / frozenCv(tables, T, 0);
  const air = humidAir(pressure, vapourPressure);
  const length = Math.sqrt((gamma * tables.freshR * T) / (AIR_GAMMA * air.R * temperature));
  return { length, area: gamma / AIR_GAMMA / length, volume: gamma / AIR_GAMMA };
}

/** Ratio of specific heats of air at intake temperatures [-] (Heywood, 1988, appendix D). */
export const AIR_GAMMA = 1.4;

/** Far from any engine's charge [K]. */
const COLDEST = 200;
const WARMEST = 420;

/** What pipes in the open draw: still gas at the pressure of the day, with the fuel and the warmth that the metering gives it. */
export function meteredAir({ tables, metering }: IntakeCharge, pressure: number): ReservoirSpec {
  const above = (T: number): number => frozenH(tables, T, 0) - metering.enthalpy;
  const T = findRoot(above, COLDEST, WARMEST, { tolerance: 1e-9 }).x;
  return { p: pressure, T, b: 0, tables, supplies: true };
}
