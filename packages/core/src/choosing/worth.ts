/** How good a build is by the aims of a shelf, and whether it keeps what only a forecast can tell. */
import type { Combination } from '../combination/combination.ts';
import { bandMean } from '../forecast/band.ts';
import { type Breach, limitBreaches, newBreaches } from '../forecast/limits.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import { percent } from '../studies/gain.ts';
import type { BuildVerdict } from './findBest.ts';
import type { ShelfAim } from './shelf.ts';

/** What an octane number too many, or as much of another limit, is taken to cost the search [%]: it leads back within the limits. */
const PENALTY = 3;
/** As much of a limit as an octane number. */
const AS_MUCH: Readonly<Record<Breach['unit'], number>> = { octane: 1, 'm/s': 1, mm: 0.5, rpm: 200 };

/** An engine with its forecast. */
export interface Forecast {
  readonly combination: Combination;
  readonly curve: WholeCurve;
}

/** Gain by each aim [%]. */
export function gainsByAim(
  base: WholeCurve,
  curve: WholeCurve,
  aims: readonly ShelfAim[],
): readonly number[] {
  return aims.map(({ band, of, weighting }) => {
    const mean = ({ points }: WholeCurve): number => {
      // Mean torque by time is the band over the time for a unit of inertia: dt = dn / torque.
      const { powerKw, torqueNm } = bandMean(points, band, of === 'time' ? 'time' : weighting);
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

/** How good a build is, and whether it keeps the limits of its file: what the engine as it is breaks no less is no fault of the build. */
export function buildVerdictOf(base: Forecast, build: Forecast, aims: readonly ShelfAim[]): BuildVerdict {
  const broken = newBreaches(
    limitBreaches(base.combination, base.curve),
    limitBreaches(build.combination, build.curve),
  );
  const excess = broken.reduce((sum, { value, allowed, unit }) => sum + (value - allowed) / AS_MUCH[unit], 0);
  const gain = weightedGain(gainsByAim(base.curve, build.curve, aims), aims);
  return { worth: gain - PENALTY * excess, keepsLimits: broken.length === 0 };
}
