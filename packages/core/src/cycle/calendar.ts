/** The events of a cylinder's life: when they are due, and what is done and noted at them. */

import { frozenR, frozenTemperature } from '../gas/lookup.ts';
import type { BurnLaw, Cylinder } from '../network/cylinder.ts';
import { CYL, endBurn, KNOCK_SHARE, localAngle, startBurn } from '../network/cylinder.ts';
import type { Network } from '../network/network.ts';
import { SIDE } from '../network/side.ts';
import { wiebeShareNormalised } from '../processes/wiebe.ts';
import type { CylinderDiary } from './diary.ts';

/** Crank angles after firing top centre at which a cylinder's life changes [deg], -360 to 360. */
export interface Calendar {
  readonly exhaustOpens: number;
  readonly intakeCloses: number;
}

/** Called when a cylinder's intake valve has closed: may set the law of the burn to come. */
export type BurnPlanner = (cylinder: Cylinder, diary: CylinderDiary) => void;

/** The calendar of a cylinder by its place in the network, from the valves that lead to it. */
export function calendarOf(network: Network, index: number): Calendar {
  let exhaustOpens = 180;
  let intakeCloses = -180;
  for (const { spec } of network.ends) {
    if (spec.to.kind !== 'cylinder' || spec.to.index !== index || !('valve' in spec.opening)) continue;
    if (spec.opening.outward) intakeCloses = spec.opening.valve.closes - 720;
    else exhaustOpens = spec.opening.valve.opens;
  }
  return { exhaustOpens, intakeCloses };
}

/** Angles that differ by less are the same [deg]. */
const EPSILON = 1e-7;

/** Degrees from a crank angle to a cylinder's next event, above zero. */
export function degreesToEvent(cylinder: Cylinder, calendar: Calendar, theta: number): number {
  const { burn, endGas } = cylinder;
  const { exhaustOpens, intakeCloses } = calendar;
  const angle = localAngle(cylinder, theta);
  let least = ahead(exhaustOpens, angle);
  least = Math.min(least, ahead(intakeCloses, angle), ahead(180, angle), ahead(-180, angle));
  least = Math.min(least, ahead(Math.max(burn.start, intakeCloses), angle));
  if (endGas) least = Math.min(least, ahead(endGasGone(burn), angle));
  return Math.min(least, ahead(Math.min(burn.start + burn.duration, exhaustOpens), angle));
}

/** Angle from which on end gas is too little to ring [deg after firing top centre]. */
function endGasGone(burn: BurnLaw): number {
  return burn.start + burn.duration * wiebeShareNormalised(KNOCK_SHARE, burn.a, burn.m);
}

/** Degrees from `angle` forward to `event`, above zero. */
function ahead(event: number, angle: number): number {
  let d = (event - angle) % 720;
  if (d <= EPSILON) d += 720;
  return d <= EPSILON ? 720 : d;
}

function near(a: number, b: number): boolean {
  const d = Math.abs(a - b) % 720;
  return d < 2 * EPSILON || d > 720 - 2 * EPSILON;
}

/** Temperature and pressure of the trapped charge once all of its fuel is vapour. */
function noteCharge(cylinder: Cylinder, diary: CylinderDiary): void {
  const { tables, side, now } = cylinder;
  const { trappedMass: m, closingEnergy, closingLiquid, residual } = diary;
  if (!(closingLiquid > 0)) {
    diary.closingPressure = side[SIDE.p];
    diary.closingTemperature = side[SIDE.T];
    return;
  }
  diary.closingTemperature = frozenTemperature(tables, closingEnergy / m, residual, side[SIDE.T]);
  diary.closingPressure = (m * frozenR(tables, residual) * diary.closingTemperature) / now.V;
}

/**
 * Does what is due at a crank angle in a cylinder's life, and notes it in the diary.
 *
 * @returns whether it altered what the state decodes to
 */
export function meetEvents(
  cylinder: Cylinder,
  calendar: Calendar,
  diary: CylinderDiary,
  theta: number,
  y: Float64Array,
  plan: BurnPlanner,
): boolean {
  const { exhaustOpens, intakeCloses } = calendar;
  const angle = localAngle(cylinder, theta);
  const o = cylinder.offset;
  let altered = false;
  if (cylinder.firing && cylinder.side[SIDE.p] > diary.risingPressure) {
    diary.risingPressure = cylinder.side[SIDE.p];
    diary.risingAngle = angle;
  }
  if (near(angle, 180)) {
    diary.workAfterExpansion = y[o + CYL.work];
    diary.closedWork = diary.workAfterExpansion - diary.workBeforeCompression;
  }
  if (near(angle, -180)) {
    diary.workBeforeCompression = y[o + CYL.work];
    diary.pumpingWork = diary.workBeforeCompression - diary.workAfterExpansion;
  }
  if (near(angle, intakeCloses)) {
    diary.trappedMass = y[o + CYL.mass];
    diary.residual = y[o + CYL.burned] / y[o + CYL.mass];
    diary.closingEnergy = y[o + CYL.energy];
    diary.closingLiquid = y[o + CYL.liquid];
    noteCharge(cylinder, diary);
    diary.risingPressure = 0;
    y[o + CYL.knock] = 0;
    plan(cylinder, diary);
    cylinder.endGas = true;
    altered = true;
  }
  const start = Math.max(cylinder.burn.start, intakeCloses);
  const finish = Math.min(cylinder.burn.start + cylinder.burn.duration, exhaustOpens);
  if (near(angle, start) && finish > start) {
    startBurn(cylinder, theta, y);
    altered = true;
  }
  if (cylinder.endGas && (near(angle, endGasGone(cylinder.burn)) || near(angle, finish)))
    cylinder.endGas = false;
  if (cylinder.burning && near(angle, finish)) {
    diary.knock = y[o + CYL.knock];
    endBurn(cylinder, theta, y);
    altered = true;
  }
  if (near(angle, exhaustOpens)) {
    cylinder.firing = false;
    diary.peakPressure = diary.risingPressure;
    diary.peakAngle = diary.risingAngle;
  }
  return altered;
}
