/** Where the burn lies: durations from the state of the charge, position from the timing asked for. */
import { compressedTemperature } from '../gas/compress.ts';
import { cylinderVolume, pistonArea } from '../geometry/sliderCrank.ts';
import type { BurnLaw, Cylinder } from '../network/cylinder.ts';
import type { BurnClass } from '../processes/burnDuration.ts';
import {
  ca50FromSpark,
  centredMainBurn,
  DEVELOPMENT_INSTANT,
  flameDevelopmentAngle,
  mainBurnAngle,
  sparkLead,
} from '../processes/burnDuration.ts';
import type { FlameFuel } from '../processes/laminarFlameSpeed.ts';
import { laminarFlameSpeed } from '../processes/laminarFlameSpeed.ts';
import { scatterShare } from '../processes/mixtureScatter.ts';
import { kinematicViscosity } from '../processes/viscosity.ts';
import { burnWindow, WIEBE_A, WIEBE_M } from '../processes/wiebe.ts';
import type { CylinderDiary } from './march.ts';

/** What the burn depends on besides the state of the charge. */
export interface BurnModel {
  readonly chamber: BurnClass;
  readonly flameFuel: FlameFuel;
  /** Fuel-air equivalence ratio [-]. */
  readonly phi: number;
  /** On both angles [-]. */
  readonly multiplier: number;
  /** Angle from 10 to 90 % burned [deg] in place of the model's; null: the model. */
  readonly duration: number | null;
  /** Share of the heat of reaction of evenly mixed charge that is released [-]. */
  readonly efficiency: number;
}

/** Crank angles of a burn [deg]. */
export interface BurnAngles {
  /** Spark to 10 % burned. */
  readonly development: number;
  /** 10 to 90 % burned. */
  readonly main: number;
}

/** Longest angles taken seriously [deg]: beyond, the engine misfires and the model has nothing to say. */
const LONGEST = 120;

/** Share of the heat of reaction that is released [-]: the stated efficiency, less what uneven mixture costs. */
export function releasedShare(efficiency: number, phi: number): number {
  return efficiency * scatterShare(phi);
}

/** Burn angles of the charge trapped in a cylinder at the closing of its intake valve. */
export function burnAngles(
  model: BurnModel,
  cylinder: Cylinder,
  diary: CylinderDiary,
  intakeCloses: number,
): BurnAngles {
  const { crank, tables } = cylinder;
  const pistonSpeed = (crank.stroke * cylinder.speed) / Math.PI;
  const b = diary.residual;
  const R = tables.freshR + b * (tables.burnedR - tables.freshR);
  const diluent = (b * tables.burnedR) / R;
  const closingVolume = cylinderVolume(crank, (intakeCloses * Math.PI) / 180);
  const at = (angle: number) => {
    const V = cylinderVolume(crank, (angle * Math.PI) / 180);
    const ratio = closingVolume / V;
    const T = compressedTemperature(tables, diary.closingTemperature, b, ratio);
    const p = (diary.closingPressure * ratio * T) / diary.closingTemperature;
    return {
      viscosity: kinematicViscosity(T, p, R),
      height: V / pistonArea(crank),
      flameSpeed: laminarFlameSpeed(model.flameFuel, model.phi, T, p, diluent),
    };
  };
  const early = at(-DEVELOPMENT_INSTANT);
  const centre = at(0);
  const development = flameDevelopmentAngle(
    model.chamber,
    pistonSpeed,
    early.viscosity,
    early.height,
    early.flameSpeed,
  );
  const { viscosity, height, flameSpeed } = centre;
  const topVolume = cylinderVolume(crank, 0);
  const first = Math.min(model.multiplier * development, LONGEST);
  const mainAt = (lead: number) => {
    // Not before the valve has closed: then the charge is not compressed yet.
    const volume = cylinderVolume(crank, (Math.max(-lead, intakeCloses) * Math.PI) / 180);
    const main = mainBurnAngle(model.chamber, pistonSpeed, viscosity, height, flameSpeed, topVolume / volume);
    return Math.min(model.multiplier * main, LONGEST);
  };
  return { development: first, main: model.duration ?? centredMainBurn(first, mainAt) };
}

/** Timing asked for: 50 % burned after firing top centre, or spark before it [deg]. */
export type Timing = { readonly ca50: number } | { readonly spark: number };

/** The burn with these angles and timing. */
export function planBurn(angles: BurnAngles, timing: Timing, efficiency: number): BurnLaw {
  const ca50 = 'ca50' in timing ? timing.ca50 : ca50FromSpark(angles.development, angles.main, timing.spark);
  const window = burnWindow(ca50, angles.main);
  return { start: window.start, duration: window.duration, a: WIEBE_A, m: WIEBE_M, efficiency };
}

/** Spark before firing top centre [deg] and angle of 50 % burned [deg] of a timing. */
export function timingAngles(
  angles: BurnAngles,
  timing: Timing,
): { readonly spark: number; readonly ca50: number } {
  return 'ca50' in timing
    ? { ca50: timing.ca50, spark: sparkLead(angles.development, angles.main, timing.ca50) }
    : { spark: timing.spark, ca50: ca50FromSpark(angles.development, angles.main, timing.spark) };
}
