/** What a curve gives for each figure that was measured. */

import { powerOf } from '../base/power.ts';
import type { Curve } from '../forecast/curve.ts';
import { marchedPoints } from '../forecast/wholeCurve.ts';
import { topOf } from '../numerics/topOf.ts';
import type { Aim, CalibrationTarget } from './calibrationTarget.ts';

/** Steps between two points of a curve in the mean that gives its top. */
export const TOP_STEPS = 10;
/** How near the top a speed must stand to count as the peak: what one pull scatters by [-]. */
export const TOP = 0.01;

/**
 * What a curve, forecast as observed, gives for each aim on a dyno that shows `reads` times what there is; the curve may
 * have more speeds than the target.
 */
export function forecastOf(target: CalibrationTarget, curve: Curve, reads: number = 1): readonly number[] {
  const points = marchedPoints(curve)
    .filter(({ rpm }) => target.rpm.includes(rpm))
    .map(({ rpm, torqueNm }) => ({ rpm, torqueNm: target.factor * reads * torqueNm }));
  const torques = points.map((p) => ({ rpm: p.rpm, value: p.torqueNm }));
  const powers = points.map((p) => ({ rpm: p.rpm, value: powerOf(p.torqueNm, p.rpm) }));
  const aimed = ({ kind, rpm }: Aim): number => {
    switch (kind) {
      case 'torque':
        return points.find((point) => point.rpm === rpm)?.torqueNm ?? Number.NaN;
      case 'torque peak':
        return topValue(torques);
      case 'torque peak speed':
        return topSpeed(torques);
      case 'power peak':
        return topValue(powers);
      case 'power peak speed':
        return topSpeed(powers);
    }
  };
  return target.aims.map(aimed);
}

/**
 * Where the top of a curve stands: the mean speed under exp((value / top - 1) / 1 %), straight between the points. Where two humps are
 * as high, scatter decides which of them a pull shows as its peak; the mean moves smoothly from the one to the other.
 */
export function topSpeed(points: readonly { readonly rpm: number; readonly value: number }[]): number {
  const top = Math.max(...points.map(({ value }) => value));
  let weights = 0;
  let moment = 0;
  points.slice(1).forEach((b, i) => {
    const a = points[i];
    for (let k = 0; k < TOP_STEPS; k++) {
      const share = (k + 0.5) / TOP_STEPS;
      const weight = (b.rpm - a.rpm) * Math.exp(((a.value + share * (b.value - a.value)) / top - 1) / TOP);
      weights += weight;
      moment += weight * (a.rpm + share * (b.rpm - a.rpm));
    }
  });
  return moment / weights;
}

function topValue(points: readonly { readonly rpm: number; readonly value: number }[]): number {
  return topOf(points.map(({ rpm, value }) => ({ x: rpm, y: value }))).y;
}
