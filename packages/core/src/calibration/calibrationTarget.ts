/** What a calibration is held to: the speeds to forecast, and what was measured at them. */

import type { CorrectionStandard, Weather } from '../combination/running.ts';
import type { HeldBack, PullPace } from '../dyno/steadySheet.ts';

/** Error a forecast keeps whatever its knobs, at one speed, one standard deviation [-]; see the theory page. */
export const MODEL_ERROR = 0.015;

/** Something measured, beside what a curve gives for it. */
export interface Aim {
  /** `torque` at a speed; `torque peak`, `power peak` and their speeds where only those are known. */
  readonly kind: 'torque' | 'torque peak' | 'torque peak speed' | 'power peak' | 'power peak speed';
  /** Speed it was measured at, or is looked for around [1/min]. */
  readonly rpm: number;
  /** [N m], [kW] or [1/min]; torque and power under the sheet's standard. */
  readonly measured: number;
  /** One standard deviation of measured less forecast, model error included; unit of `measured`. */
  readonly sigma: number;
}

/** The aims of a fit and the air they hold for. */
export interface CalibrationTarget {
  /** Names of the sheets. */
  readonly names: readonly string[];
  /** Correction standard that the figures are shown by. */
  readonly standard: CorrectionStandard;
  /** The figures are those at the driven wheels; absent: at the engine. */
  readonly atWheels?: true;
  /** Air to forecast in; null: that of the combination. */
  readonly weather: Weather | null;
  /** Forecast as observed in that air, times this, is what the aims show [-]. */
  readonly factor: number;
  /** How fast each pull behind the aims went; absent: nothing is known of it. */
  readonly paces?: readonly PullPace[];
  /** What was added to the aims to bring them to steady running; absent: nothing yet. */
  readonly heldBack?: HeldBack;
  /** Speeds to forecast, rising [1/min]. */
  readonly rpm: readonly number[];
  /** What was measured. */
  readonly aims: readonly Aim[];
  /** One standard deviation of a pull [-], whether it was assumed, and how many pulls there are. */
  readonly repeatability: { readonly deviation: number; readonly assumed: boolean; readonly pulls: number };
  /** Error a forecast keeps whatever its knobs, one standard deviation [-]. */
  readonly modelError: number;
  /** What was repaired or taken for granted, for people. */
  readonly notes: readonly string[];
}

/** The target without some of its speeds, and without what was measured at them. */
export function withoutSpeeds(target: CalibrationTarget, gone: readonly number[]): CalibrationTarget {
  if (gone.length === 0) return target;
  return {
    ...target,
    rpm: target.rpm.filter((n) => !gone.includes(n)),
    aims: target.aims.filter(({ kind, rpm }) => kind !== 'torque' || !gone.includes(rpm)),
  };
}
