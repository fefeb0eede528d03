/** How good a build is by the aims of a shelf, and whether it keeps what only a forecast can tell. */
import { bandMean } from '../forecast/band.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import { percent } from '../studies/gain.ts';
import type { BuildVerdict } from './findBest.ts';
import type { ShelfAim, ShelfLimits } from './shelf.ts';

/** What an octane number too many, or a metre a second of piston speed, is taken to cost the search [%]: it leads back within the limits. */
const PENALTY = 3;

/** Gain by each aim [%]. */
export function gainsByAim(
  base: WholeCurve,
  curve: WholeCurve,
  aims: readonly ShelfAim[],
): readonly number[] {
  return aims.map(({ band, of, weighting }) => {
    const mean = ({ points }: WholeCurve): number => {
      const { powerKw, torqueNm } = bandMean(points, band, weighting);
      return of === 'power' ? powerKw : torqueNm;
    };
    return percent(mean(base), mean(curve));
  });
}

/** The weighted mean of the gains by aim [%]. */
export function weightedGain(gains: readonly number[], aims: readonly ShelfAim[]): number {
  const weight = aims.reduce((sum, aim) => sum + aim.weight, 0);
  return gains.reduce((sum, gain, i) => sum + gain * aims[i].weight, 0) / weight;
}

/** Most octane that a speed asks for. */
export function octaneOf({ points }: WholeCurve): number {
  return Math.max(...points.map(({ octaneRequired }) => octaneRequired));
}

/** Mean piston speed at the last speed [m/s]. */
export function pistonSpeedOf({ points }: WholeCurve): number {
  return points[points.length - 1].meanPistonSpeedMs;
}

export function buildVerdictOf(
  base: WholeCurve,
  curve: WholeCurve,
  aims: readonly ShelfAim[],
  { octane, pistonSpeed }: ShelfLimits,
): BuildVerdict {
  const over = (value: number, limit: number | null): number =>
    limit === null ? 0 : Math.max(0, value - limit);
  const excess = over(octaneOf(curve), octane) + over(pistonSpeedOf(curve), pistonSpeed);
  const gain = weightedGain(gainsByAim(base, curve, aims), aims);
  return { worth: gain - PENALTY * excess, keepsLimits: excess === 0 };
}
