/** How far the figures of speeds scatter whose cycles never repeat, in shares of what they are. */
import type { MarchedPoint } from './curve.ts';

/** Brake pressure below which shares of it say nothing [bar]. */
const LEAST = 0.05;

/** One standard deviation from cycle to cycle of a point's torque, and so of its power, over their size [-]; 0 where it settled. */
export function scatterOf({ scatterPct = 0, imepBar, pmepBar, bmepBar }: MarchedPoint): number {
  if (scatterPct === 0) return 0;
  // The percentage is of what the strokes do; friction does not scatter and makes torque smaller.
  return ((scatterPct / 100) * (Math.abs(imepBar) + Math.abs(pmepBar))) / Math.max(LEAST, Math.abs(bmepBar));
}

/** The same of mean power over the speeds, each of which scatters by itself [-]. */
export function meanScatterOf(points: readonly MarchedPoint[]): number {
  const squares = points.reduce((sum, point) => sum + (scatterOf(point) * point.powerKw) ** 2, 0);
  const whole = points.reduce((sum, { powerKw }) => sum + Math.abs(powerKw), 0);
  return squares === 0 ? 0 : Math.sqrt(squares) / whole;
}
