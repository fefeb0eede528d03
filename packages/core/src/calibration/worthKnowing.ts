/** Which knob that can be measured would, once it is, leave least uncertain of the power that the fit forecasts. */
import { settledBy } from '../uncertainty/settledBy.ts';
import type { WorthKnowing } from './calibrationResult.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';
import type { Knob } from './knobs.ts';

/** A measurement that leaves more than this of the uncertainty settles nothing [-]. */
const LEAVES_MOST = 0.95;

/**
 * Mean power over the measured speeds moves with the knobs as `g`; what is left uncertain of them has the covariance `C`. Its variance is
 * `g C g`, and knowing knob k takes `(C g)_k^2 / C_kk` off it (conditional variance of a normal distribution). The dyno is no part of the engine
 * and moves no power, but what it reads is mixed up with what does. Figures of the model are left out: a builder has no way to measure them. Null
 * for peak figures, which say nothing of a mean, and where no knob stands out.
 */
export function worthKnowing(
  knobs: readonly Knob[],
  { aims }: Pick<CalibrationTarget, 'aims'>,
  covariance: readonly (readonly number[])[],
  jacobian: readonly (readonly number[])[],
): WorthKnowing | null {
  const rows = aims.flatMap(({ kind }, i) => (kind === 'torque' ? [i] : []));
  const whole = rows.reduce((sum, i) => sum + aims[i].measured * aims[i].rpm, 0);
  if (!(whole > 0)) return null;
  const slope = knobs.map(({ name }, k) =>
    name === 'dyno'
      ? 0
      : rows.reduce((sum, i) => sum + jacobian[i][k] * aims[i].sigma * aims[i].rpm, 0) / whole,
  );
  const along = covariance.map((row) => row.reduce((sum, value, k) => sum + value * slope[k], 0));
  const variance = along.reduce((sum, value, k) => sum + value * slope[k], 0);
  if (!(variance > 0)) return null;
  const left = knobs.map((knob, k) =>
    canBeMeasured(knob) && covariance[k][k] > 0 ? variance - along[k] ** 2 / covariance[k][k] : variance,
  );
  const least = left.reduce((best, value, k) => (value < left[best] ? k : best), 0);
  if (!(left[least] < LEAVES_MOST ** 2 * variance)) return null;
  const pct = (value: number): number => 100 * Math.sqrt(Math.max(0, value));
  return {
    knob: knobs[least].name,
    path: knobs[least].path,
    sigmaPct: pct(variance),
    leftPct: pct(left[least]),
  };
}

/** A dyno can be checked with weights on its arm. */
function canBeMeasured({ path }: Knob): boolean {
  return path === null || settledBy(path) === 'measuring';
}
