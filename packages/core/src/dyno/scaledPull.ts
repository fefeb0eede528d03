/** A pull whose figures stand under another standard, or in other air. */
import type { Pull } from './readPull.ts';

/** Its torque and power times a factor [-]. */
export function scaledPull(pull: Pull, factor: number): Pull {
  const points = pull.points.map((point) => ({
    ...point,
    torqueNm: factor * point.torqueNm,
    powerKw: factor * point.powerKw,
  }));
  return { ...pull, points };
}
