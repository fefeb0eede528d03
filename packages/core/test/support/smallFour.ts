/** An invented in-line four of two litres with sixteen valves, as the friction model takes it. */
import type { FrictionInput } from '../../src/processes/friction.ts';

export const SMALL_FOUR: FrictionInput = {
  bore: 0.086,
  stroke: 0.086,
  cylinders: 4,
  compressionRatio: 10,
  mainBearings: 5,
  mainDiameter: 0.056,
  mainLength: 0.021,
  rodDiameter: 0.048,
  rodLength: 0.021,
  valvetrain: 'direct-acting',
  camBearings: 5,
  valves: 16,
  valveLift: 0.009,
  accessories: true,
  driveRatio: 1,
  intakePressureRatio: 1,
  oilViscosityRatio: 1,
};
