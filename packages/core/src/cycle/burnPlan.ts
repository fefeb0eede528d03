/** Where the burn lies: durations from the state of the charge, position from the timing asked for. */

import { compressedTemperature } from '../gas/compress.ts';
import { frozenR } from '../gas/frozenBlend.ts';
import { cylinderVolume, pistonArea } from '../geometry/sliderCrank.ts';
import type { BurnLaw, Cylinder } from '../network/cylinder.ts';
import {
  CENTRED_CA50,
  ca50FromSpark,
  DEVELOPMENT_INSTANT,
  flameDevelopmentAngle,
  mainBurnAngle,
  mainBurnTimed,
  type ReferenceBurn,
  sparkLead,
} from '../processes/burnDuration.ts';
import type { FlameFuel } from '../processes/laminarFlameSpeed.ts';
import { laminarFlameSpeed } from '../processes/laminarFlameSpeed.ts';
import { scatterShare } from '../processes/mixtureScatter.ts';
import { kinematicViscosity } from '../processes/viscosity.ts';
import { burnWindow, WIEBE_A, WIEBE_M } from '../processes/wiebe.ts';
import type { CylinderDiary } from './diary.ts';

/** What the burn depends on besides the state of the charge. */
export interface BurnModel {
  /** The chamber's own burn. */
  readonly reference: ReferenceBurn;
  readonly flameFuel: FlameFuel;
  /** Fuel-air equivalence ratio [-]. */
  readonly phi: number;
  /** Mole fraction of water in the air [-]. */
  readonly humidity: number;
  /** On both angles [-]. */
  readonly multiplier: number;
  /** Angle from 10 to 90 % burned [deg] in place of the model's; null: the model. */
  readonly duration: number | null;
  /** Share of the heat of reaction of evenly mixed charge that is released [-]. */
  readonly efficiency: number;
}

/** Crank angles of the burns a charge can have [deg]. */
export interface BurnAngles {
  /** Spark to 10 % burned. */
  readonly development: number;
  /** 10 to 90 % burned, of a burn with half burned at {@link CENTRED_CA50} or before. */
  readonly main: number;
  /** 10 to 90 % burned of a charge lit so many degrees before firing top centre; left out where that doesn't matter. */
  readonly mainAt?: (lead: number) => number;
}

/** A timing with all that follows from it [deg]. */
export interface TimedBurn {
  /** Spark before firing top centre, 50 % burned after it, 10 to 90 % burned. */
  readonly spark: number;
  readonly ca50: number;
  readonly main: number;
}

/** Longest angles taken seriously [deg]: beyond, the engine misfires and the model has nothing to say. */
const LONGEST = 120;

/** Share of the heat of reaction that is released [-]: the stated efficiency, less what uneven mixture costs. */
export function releasedShare(efficiency: number, phi: number, scatter?: number): number {
  return efficiency * scatterShare(phi, scatter);
}

/** Burn angles of the charge trapped in a cylinder at the closing of its intake valve. */
export function burnAngles(
  model: BurnModel,
  cylinder: Cylinder,
  diary: CylinderDiary,
  intakeCloses: number,
): BurnAngles {
  const { crank, charge: tables } = cylinder;
  const pistonSpeed = (crank.stroke * cylinder.speed) / Math.PI;
  const b = diary.residual;
  const R = frozenR(tables, b);
  const burned = (b * tables.burnedR) / R;
  // Water in the air keeps a flame back as burned gas does, by the mole; what the fuel takes of the room is left out.
  const diluent = burned + (1 - burned) * model.humidity;
  const closingVolume = cylinderVolume(crank, (intakeCloses * Math.PI) / 180);
  const at = (angle: number) => {
    const V = cylinderVolume(crank, (angle * Math.PI) / 180);
    const ratio = closingVolume / V;
    const T = compressedTemperature(tables, diary.closingTemperature, b, ratio);
    const p = (diary.closingPressure * ratio * T) / diary.closingTemperature;
    return {
      bore: crank.bore,
      stroke: crank.stroke,
      pistonSpeed,
      viscosity: kinematicViscosity(T, p, R),
      height: V / pistonArea(crank),
      flameSpeed: laminarFlameSpeed(model.flameFuel, model.phi, T, p, diluent),
    };
  };
  const development = flameDevelopmentAngle(model.reference, at(-DEVELOPMENT_INSTANT));
  const centre = at(0);
  const topVolume = cylinderVolume(crank, 0);
  const first = Math.min(model.multiplier * development, LONGEST);
  const mainAt = (lead: number) => {
    // Not before the valve has closed: then the charge is not compressed yet.
    const volume = cylinderVolume(crank, (Math.max(-lead, intakeCloses) * Math.PI) / 180);
    const main = mainBurnAngle(model.reference, centre, topVolume / volume);
    return Math.min(model.multiplier * main, LONGEST);
  };
  if (model.duration !== null) return { development: first, main: model.duration };
  return { development: first, main: mainBurnTimed(first, mainAt, CENTRED_CA50), mainAt };
}

/** Timing asked for: 50 % burned after firing top centre, or spark before it [deg]. */
export type Timing = { readonly ca50: number } | { readonly spark: number };

/** Angles and timing of a first burn, before any charge was trapped [deg]. */
export const FIRST_ANGLES: BurnAngles = { development: 20, main: 30 };
export const FIRST_TIMING: Timing = { ca50: 8 };

/** The burn with these angles and timing. */
export function planBurn(angles: BurnAngles, timing: Timing, efficiency: number): BurnLaw {
  const { ca50, main } = timedBurn(angles, timing);
  const window = burnWindow(ca50, main);
  return { start: window.start, duration: window.duration, a: WIEBE_A, m: WIEBE_M, efficiency };
}

/** Spark, centre and length of the burn with these angles and timing. */
export function timedBurn(angles: BurnAngles, timing: Timing): TimedBurn {
  const { development, main: centred, mainAt } = angles;
  if ('ca50' in timing) {
    const { ca50 } = timing;
    const late = ca50 > CENTRED_CA50 && mainAt !== undefined;
    const main = late ? mainBurnTimed(development, mainAt, ca50) : centred;
    return { ca50, main, spark: sparkLead(development, main, ca50) };
  }
  const { spark } = timing;
  const main = mainAt === undefined ? centred : Math.max(centred, mainAt(Math.max(0, spark)));
  return { spark, main, ca50: ca50FromSpark(development, main, spark) };
}
