/** The events of a cylinder's life: when they are due, and what is done and noted at them. */

import { frozenR, frozenTemperature } from '../gas/frozenBlend.ts';
import { CLOCK } from '../network/clock.ts';
import type { BurnLaw, Cylinder } from '../network/cylinder.ts';
import { CYL, decodeAtAngle, endBurn, startBurn } from '../network/cylinder.ts';
import type { Network } from '../network/network.ts';
import { giveMeanMixture, takeOwnMixture } from '../network/ownMixture.ts';
import { SIDE } from '../network/side.ts';
import type { CylinderDiary } from './diary.ts';
import { endGasGone } from './endGasGone.ts';

/** Crank angles after firing top centre at which a cylinder's life changes [deg], -360 to 360. */
export interface Calendar {
  readonly exhaustOpens: number;
  readonly intakeCloses: number;
  /** Crank angle of the next event after the step at hand began [deg]. */
  readonly due: Float64Array;
  /** Angles of all events, for this burn. */
  readonly angles: Float64Array;
  burn: BurnLaw | null;
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
  return { exhaustOpens, intakeCloses, due: new Float64Array(1), angles: new Float64Array(7), burn: null };
}

/** Angles that differ by less are the same [deg]. */
const EPSILON = 1e-7;

/** Brings the end of the step on a {@link CLOCK} back to a cylinder's next event; the cylinder is decoded where the step begins. */
export function shortenForEvents(cylinder: Cylinder, calendar: Calendar, clock: Float64Array): void {
  const { angles, due } = calendar;
  if (calendar.burn !== cylinder.burn) turnPage(calendar, cylinder);
  const { angle } = cylinder.now;
  let least = 720;
  for (let i = cylinder.endGas ? 0 : 1; i < angles.length; i++) {
    const d = angles[i] - angle;
    // Degrees ahead, above zero. A remainder by division is several times as slow.
    let ahead = d - 720 * Math.floor(d / 720);
    if (ahead <= EPSILON) ahead += 720;
    if (ahead < least) least = ahead;
  }
  due[0] = clock[CLOCK.from] + least;
  clock[CLOCK.to] = Math.min(clock[CLOCK.to], due[0]);
}

/** Notes the angles of a cylinder's events for another burn or charge; that of the end gas, which is not always one, comes first. */
function turnPage(calendar: Calendar, cylinder: Cylinder): void {
  const { exhaustOpens, intakeCloses, angles } = calendar;
  const { burn } = cylinder;
  calendar.burn = burn;
  angles[0] = endGasGone(cylinder);
  angles[1] = exhaustOpens;
  angles[2] = intakeCloses;
  angles[3] = 180;
  angles[4] = -180;
  angles[5] = Math.max(burn.start, intakeCloses);
  angles[6] = Math.min(burn.start + burn.duration, exhaustOpens);
}

function near(a: number, b: number): boolean {
  const d = (a - b) / 720;
  return 720 * Math.abs(d - Math.round(d)) < 2 * EPSILON;
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
 * Does what is due in a cylinder's life where the step on a {@link CLOCK} ends, and notes it in the diary; the cylinder is decoded there.
 *
 * @returns whether it altered what the state decodes to
 */
export function meetEvents(
  cylinder: Cylinder,
  calendar: Calendar,
  diary: CylinderDiary,
  clock: Float64Array,
  y: Float64Array,
  plan: BurnPlanner,
): boolean {
  if (cylinder.firing) noteRise(cylinder, diary);
  // A function of its own for what few steps meet, so that the one that all meet stays small and is soon compiled.
  return (
    clock[CLOCK.to] >= calendar.due[0] - 2 * EPSILON && meetDue(cylinder, calendar, diary, clock, y, plan)
  );
}

function noteRise({ side, now }: Cylinder, diary: CylinderDiary): void {
  if (!(side[SIDE.p] > diary.risingPressure)) return;
  diary.risingPressure = side[SIDE.p];
  diary.risingAngle = now.angle;
}

/** What the closing of the intake valve makes of a cylinder's gas, and its notes of the charge. */
function trapCharge(cylinder: Cylinder, diary: CylinderDiary, y: Float64Array): void {
  const o = cylinder.offset;
  if (cylinder.charge !== cylinder.mean) {
    diary.fuelAdded = takeOwnMixture(cylinder, y);
    decodeAtAngle(cylinder, y);
  }
  diary.trappedMass = y[o + CYL.mass];
  // Of a charge that is all burned gas rounding makes a little more than all, of one that has none less than nothing.
  diary.residual = Math.min(1, Math.max(0, y[o + CYL.burned] / y[o + CYL.mass]));
  diary.closingEnergy = y[o + CYL.energy];
  diary.closingLiquid = y[o + CYL.liquid];
  noteCharge(cylinder, diary);
  diary.risingPressure = 0;
  y[o + CYL.knock] = 0;
  cylinder.endGas = true;
}

function meetDue(
  cylinder: Cylinder,
  calendar: Calendar,
  diary: CylinderDiary,
  clock: Float64Array,
  y: Float64Array,
  plan: BurnPlanner,
): boolean {
  const { exhaustOpens, intakeCloses, angles } = calendar;
  const { angle } = cylinder.now;
  const theta = clock[CLOCK.to];
  const o = cylinder.offset;
  let altered = false;
  if (near(angle, 180)) {
    diary.workAfterExpansion = y[o + CYL.work];
    diary.closedWork = diary.workAfterExpansion - diary.workBeforeCompression;
  }
  if (near(angle, -180)) {
    diary.workBeforeCompression = y[o + CYL.work];
    diary.pumpingWork = diary.workBeforeCompression - diary.workAfterExpansion;
  }
  if (near(angle, intakeCloses)) {
    trapCharge(cylinder, diary, y);
    plan(cylinder, diary);
    // How long end gas is left hangs on the charge as well.
    calendar.burn = null;
    altered = true;
  }
  const start = Math.max(cylinder.burn.start, intakeCloses);
  const finish = Math.min(cylinder.burn.start + cylinder.burn.duration, exhaustOpens);
  if (near(angle, start) && finish > start) {
    startBurn(cylinder, theta, y);
    altered = true;
  }
  if (cylinder.endGas && (near(angle, angles[0]) || near(angle, finish))) cylinder.endGas = false;
  if (cylinder.burning && near(angle, finish)) {
    diary.knock = y[o + CYL.knock];
    endBurn(cylinder, theta, y);
    altered = true;
  }
  if (near(angle, exhaustOpens)) {
    cylinder.firing = false;
    if (cylinder.tables !== cylinder.mean) {
      decodeAtAngle(cylinder, y);
      diary.massGained = giveMeanMixture(cylinder, y);
      altered = true;
    }
    diary.peakPressure = diary.risingPressure;
    diary.peakAngle = diary.risingAngle;
  }
  return altered;
}
