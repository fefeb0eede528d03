/** What makes up the variance of a gain: each unknown, and the model's own error. */

import { normalDensity } from '../numerics/normal.ts';
import { movedBy, type Response, remainderOf, type Subject, unknownIds } from './responseSurface.ts';

/** What an unknown brings to the variance of a gain. */
export interface VarianceShare {
  readonly id: string;
  /** Of the variance [-]. */
  readonly share: number;
  /** Standard deviation of the gain from it alone [%]. */
  readonly sigma: number;
  /** What one standard deviation of it does to the gain [%]. */
  readonly perSigma: number;
}

/** What makes up the variance of a gain; what is left of it has no name. */
export interface VarianceShares {
  /** Each unknown's, largest first, ties by id. */
  readonly unknowns: readonly VarianceShare[];
  /** Of the model's own error, which nothing measured on the engine takes away [-]. */
  readonly model: number;
}

export function varianceShares(baseline: Subject, candidate: Subject): VarianceShares {
  const ratio = candidate.power / baseline.power;
  const none: Response = { linear: 0, curved: 0 };
  const parts = unknownIds([baseline, candidate]).map((id) => {
    const b = baseline.responses[id] ?? none;
    const c = candidate.responses[id] ?? { ...b, ...none };
    const linear = ratio * (c.linear - b.linear);
    const curved = ratio * (c.curved - b.curved);
    return { id, perSigma: 100 * linear, variance: varianceOf({ ...c, linear, curved }) };
  });
  const scatter = ratio * Math.hypot(baseline.scatter ?? 0, candidate.scatter ?? 0);
  const ofModel = Object.values(candidate.modelError ?? {}).reduce((sum, share) => sum + share * share, 0);
  const whole = parts.reduce(
    (sum, { variance }) => sum + variance,
    remainderOf(candidate) ** 2 + scatter ** 2 + ofModel,
  );
  const shareOf = (variance: number): number => (whole > 0 ? variance / whole : 0);
  const unknowns = parts
    .map(({ id, variance, perSigma }) => ({
      id,
      share: shareOf(variance),
      sigma: 100 * Math.sqrt(variance),
      perSigma,
    }))
    .sort((a, b) => b.share - a.share || (a.id < b.id ? -1 : 1));
  return { unknowns, model: shareOf(ofModel) };
}

/** Where what has no closed form is added up: far enough out, and finely enough, for a variance to a thousandth [standard deviations]. */
const FAR_OUT = 5;
const STEP = 0.05;

/** Of what one unknown moves [-]. */
function varianceOf(response: Response): number {
  const { linear, curved, reach } = response;
  // Var(z) = 1, Var(z^2) = 2, uncorrelated.
  if (reach === undefined) return linear * linear + 2 * curved * curved;
  let [weight, sum, squares] = [0, 0, 0];
  for (let z = -FAR_OUT; z <= FAR_OUT; z += STEP) {
    const density = normalDensity(z);
    const moved = movedBy(response, z);
    weight += density;
    sum += density * moved;
    squares += density * moved * moved;
  }
  return squares / weight - (sum / weight) ** 2;
}
