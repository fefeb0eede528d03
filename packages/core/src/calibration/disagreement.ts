/** When no credible knob brings a forecast to what was measured. */
import type { Disagreement, FitPoint } from './calibrationResult.ts';
import type { Knob } from './knobs.ts';
import { suspectText, type TriedSuspect } from './suspectTrial.ts';

/** Misses after the fit beyond so many of the allowed deviations, root mean square, mean that no knob has the shape. */
const UNFITTED = 2;
/** Suspects named. */
const MOST_NAMED = 4;

/** Why a fit is not to be believed. */
export interface Doubt {
  readonly knobs: Disagreement['knobs'];
  readonly message: string;
}

/** Knobs that ran into their limits, or misses that no knob has the shape of; null for a fit that came to a good end. */
export function doubtOf(
  knobs: readonly Knob[],
  held: readonly (-1 | 0 | 1)[],
  points: readonly FitPoint[],
): Doubt | null {
  const stuck = knobs.flatMap((knob, i) => (held[i] === 0 ? [] : [{ knob, way: held[i] }]));
  // A share of fuel burned ends at one by nature, which is no disagreement.
  const beyond = stuck.filter(({ knob, way }) => !(knob.name === 'efficiency' && way === 1));
  if (beyond.length > 0) {
    const limit = ({ value, min, max }: Knob, way: number): string =>
      `${way > 0 ? '+' : ''}${(100 * ((way > 0 ? max : min) / value - 1)).toFixed(0)} %`;
    const wants = beyond.map(
      ({ knob, way }) => `${knob.what} ${way > 0 ? 'above' : 'below'} ${limit(knob, way)}`,
    );
    return {
      knobs: beyond.map(({ knob }) => knob.name),
      message: `The sheets disagree: the fit would need ${wants.join(' and ')}, further off than such figures usually are.`,
    };
  }
  const worst = Math.sqrt(
    points.reduce((sum, p) => sum + ((p.after - p.measured) / p.sigma) ** 2, 0) / points.length,
  );
  if (worst <= UNFITTED) return null;
  const at = points.reduce((a, b) =>
    Math.abs((b.after - b.measured) / b.sigma) > Math.abs((a.after - a.measured) / a.sigma) ? b : a,
  );
  const off = 100 * (at.after / at.measured - 1);
  return {
    knobs: [],
    message: `The sheets disagree: after the fit the forecast still misses by ${worst.toFixed(1)} times what scatter and model error allow, most at ${Math.round(at.rpm)} rpm (${off > 0 ? '+' : ''}${off.toFixed(1)} %). No knob bends the curve that way.`,
  };
}

/** The doubt with what was tried to explain it. */
export function disagreementOf(doubt: Doubt, tried: readonly TriedSuspect[]): Disagreement {
  const named = tried.slice(0, MOST_NAMED).map(suspectText);
  const culprits =
    named.length > 0
      ? named
      : [
          'nothing that was tried explains it (carburetor, displacement, compression, cam, primaries, bench depression, correction standard): look at the pull itself: ignition breaking up, valve float, a mixture that goes lean or rich',
        ];
  return { ...doubt, culprits, tried };
}
