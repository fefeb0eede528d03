/** The fields that a fit to dyno sheets may move. */

/** The fields a calibration may move: physical multipliers, never a correction by speed. */
export const CALIBRATED_FIELDS: readonly CalibratedField[] = [
  'heads.intake.flowMultiplier',
  'induction.flowMultiplier',
  'heat.multiplier',
  'burn.efficiency',
  'friction.multiplier',
  'induction.runner.lengthMultiplier',
];

/** One of the fields a calibration may move. */
export type CalibratedField =
  | 'heads.intake.flowMultiplier'
  | 'induction.flowMultiplier'
  | 'heat.multiplier'
  | 'burn.efficiency'
  | 'friction.multiplier'
  | 'induction.runner.lengthMultiplier';
