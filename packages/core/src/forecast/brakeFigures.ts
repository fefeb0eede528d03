/** What the crank gives, from what the gas does and what rubbing takes. */

import { portLift } from '../assembly/portValve.ts';
import { HORSEPOWER, POUND_FOOT } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
import { friction } from '../processes/friction.ts';
import type { MarchedPoint } from './curve.ts';
import { correctBrake } from './weatherCorrection.ts';

/** Mean effective pressures [Pa]. */
export interface MeanPressures {
  /** Of all strokes: gross indicated and pumping loop. */
  readonly indicated: number;
  readonly friction: number;
}

/** Torque and power as they are shown. */
export type BrakeFigures = Pick<MarchedPoint, 'torqueNm' | 'powerKw' | 'torqueLbFt' | 'powerHp'>;

/** Friction mean effective pressure at best timing [Pa], with the plenum at a pressure [Pa]. */
export function rubbingPressure(combination: Combination, rpm: number, plenumPressure: number): number {
  const { block, chamber, intake, exhaust, weather, friction: f } = combination;
  const { total } = friction(
    {
      bore: block.bore,
      stroke: block.stroke,
      cylinders: block.cylinders,
      compressionRatio: chamber.compressionRatio,
      mainBearings: f.mainBearings,
      mainDiameter: f.mainDiameter,
      mainLength: f.mainLength,
      rodDiameter: f.rodDiameter,
      rodLength: f.rodLength,
      valvetrain: f.valvetrain,
      camBearings: f.camBearings,
      valves: block.cylinders * (intake.valves + exhaust.valves),
      valveLift: portLift(intake, 'intake', f.valvetrain).maxLift,
      accessories: f.accessories,
      driveRatio: f.driveRatio,
      intakePressureRatio: plenumPressure / weather.pressure,
      oilViscosityRatio: 1,
    },
    rpm / 60,
  );
  return f.multiplier * total;
}

/** Torque that a mean effective pressure [Pa] gives with a swept volume [m3] of a four-stroke [N m]. */
function torqueOf(mep: number, volume: number): number {
  return (mep * volume) / (4 * Math.PI);
}

/** Brake torque as shown [N m], of a swept volume [m3]. */
export function shownTorque(
  { weather, correction }: Combination,
  volume: number,
  { indicated, friction: fmep }: MeanPressures,
): number {
  return correctBrake(
    correction,
    torqueOf(indicated - fmep, volume),
    torqueOf(fmep, volume),
    weather.pressure - weather.vapourPressure,
    weather.temperature,
  );
}

/** Brake power in the air of the day [W] at a brake mean effective pressure [Pa]. */
export function observedPower(combination: Combination, rpm: number, bmep: number): number {
  const displacement = sweptVolume(combination.block) * combination.block.cylinders;
  return (torqueOf(bmep, displacement) * rpm * Math.PI) / 30;
}

/** Torque [N m] and the power that it is at a speed [1/min]. */
export function brakeOf(torque: number, rpm: number): BrakeFigures {
  const power = (torque * rpm * Math.PI) / 30;
  return {
    torqueNm: torque,
    powerKw: power / 1000,
    torqueLbFt: torque / POUND_FOOT,
    powerHp: power / HORSEPOWER,
  };
}
