/** What a cam asks of a flow sheet: lift over the cycle, and how long the valve stands at which lift. */

import { portLift } from '../assembly/portValve.ts';
import { CUBIC_FOOT_A_MINUTE } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { flowFromArea, USUAL_DEPRESSION } from '../geometry/flowSheet.ts';
import { pistonPosition, sliderCrank } from '../geometry/sliderCrank.ts';
import { lookUpPeriodic } from '../numerics/interpolate.ts';

/** One side of one cylinder, all its valves together. */
export interface ValveUseSide {
  /** Head diameter of one valve [mm]. */
  readonly valveDiameterMm: number;
  /** Highest net lift of the valve [mm]. */
  readonly peakLiftMm: number;
  /** Lift of the last point of the flow sheet; null without a sheet. */
  readonly measuredToMm: number | null;
  /** Net lift of the valve at each of `angleDeg`. */
  readonly liftMm: readonly number[];
  /** Flow at 28 inH2O against lift, rising from lift 0 to the larger of sheet and cam [cfm]. */
  readonly flow: readonly { readonly liftMm: number; readonly cfm28: number }[];
  /** Crank degrees of a cycle the valve spends between two lifts; their sum is the time off the seat. */
  readonly dwell: readonly { readonly fromMm: number; readonly toMm: number; readonly crankDeg: number }[];
}

/** What the cam asks of the flow sheets, on both sides of a cylinder. */
export interface ValveUse {
  /** Crank angle after firing top centre [deg], 0 to 720; gas-exchange top centre is 360. */
  readonly angleDeg: readonly number[];
  /** Piston below its top centre at each angle. */
  readonly pistonDropMm: readonly number[];
  /** Intake side of one cylinder. */
  readonly intake: ValveUseSide;
  /** Exhaust side of one cylinder. */
  readonly exhaust: ValveUseSide;
}

/** Between the angles of the lists [deg], and between the samples that dwell is counted from. */
const STEP = 2;
const FINE = 0.25;
/** Classes of lift from seat to peak, and points of the flow curve. */
const CLASSES = 10;
const POINTS = 24;

/**
 * Lift, flow and dwell of both valves, and where the piston is meanwhile.
 *
 * @example
 * ```ts
 * console.log(valveUse(combination).intake.peakLiftMm);
 * ```
 */
export function valveUse(combination: Combination): ValveUse {
  const { block, chamber } = combination;
  const crank = sliderCrank(block.bore, block.stroke, block.rodLength, chamber.clearanceVolume);
  const angleDeg = Array.from({ length: 720 / STEP + 1 }, (_, i) => i * STEP);
  return {
    angleDeg,
    pistonDropMm: angleDeg.map((angle) => pistonPosition(crank, (angle * Math.PI) / 180) * 1000),
    intake: sideUse(combination, 'intake', angleDeg),
    exhaust: sideUse(combination, 'exhaust', angleDeg),
  };
}

function sideUse(
  combination: Combination,
  side: 'intake' | 'exhaust',
  angles: readonly number[],
): ValveUseSide {
  const port = combination[side];
  const lift = portLift(port, side, combination.friction.valvetrain);
  const areaAt = flowArea(port.flow);
  const liftAt = (angle: number): number => lookUpPeriodic(lift.table, angle);
  const { measuredTo } = port.flow;
  const farthest = Math.max(lift.maxLift, measuredTo ?? 0);
  const counts = new Array<number>(CLASSES).fill(0);
  for (let angle = 0; angle < 720; angle += FINE) {
    const at = liftAt(angle);
    if (at > 0) counts[Math.min(CLASSES - 1, Math.floor((at / lift.maxLift) * CLASSES))] += FINE;
  }
  return {
    valveDiameterMm: port.valveDiameter * 1000,
    peakLiftMm: lift.maxLift * 1000,
    measuredToMm: measuredTo === null ? null : measuredTo * 1000,
    liftMm: angles.map((angle) => liftAt(angle) * 1000),
    flow: Array.from({ length: POINTS + 1 }, (_, i) => {
      const at = (farthest * i) / POINTS;
      return {
        liftMm: at * 1000,
        cfm28: at > 0 ? flowFromArea(areaAt(at), USUAL_DEPRESSION) / CUBIC_FOOT_A_MINUTE : 0,
      };
    }),
    dwell: counts.map((crankDeg, i) => ({
      fromMm: (lift.maxLift * 1000 * i) / CLASSES,
      toMm: (lift.maxLift * 1000 * (i + 1)) / CLASSES,
      crankDeg,
    })),
  };
}
