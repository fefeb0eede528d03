/** Something in the sheets taken for wrong, and what the fit would then come to. */

import { powerOf } from '../base/power.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import { brakeFactorIn } from '../forecast/weatherCorrection.ts';
import { dampedLeastSquares, type FitResult, type FitUnknown } from '../numerics/dampedLeastSquares.ts';
import { rootMeanSquare } from '../numerics/rootMeanSquare.ts';
import type { CombinationDocument } from '../reading/combinationDocument.ts';
import type { CalibrationTarget } from './calibrationTarget.ts';

/** Something that may be wrong, by how much, and what the fit would come to were it so. Plain and serialisable. */
export interface TriedSuspect {
  /** For people: what, and how far from what the file says. */
  readonly what: string;
  /** Sum of squares left of the fit's own [-]: below one it explains something. */
  readonly leaves: number;
  /** Root mean square of forecast over measured less one, torque and power figures [-]. */
  readonly error: number;
  /** Whether some knob would still stop at its limit. */
  readonly atLimit: boolean;
}

/** What a trial starts from: the fit as it ended, and how to forecast the fitted engine with something altered. */
export interface TrialGround {
  readonly document: CombinationDocument;
  readonly target: CalibrationTarget;
  readonly unknowns: readonly FitUnknown[];
  readonly fit: FitResult;
  /** Torque that each rpm/s of a rate which nobody states would hold back [N m for 1/min/s]; null where one is known, or at the wheels. */
  readonly heldByRate: number | null;
  /** Residuals of the fitted engine with its file altered so; null for each that could not be built or run. */
  readonly residualsWith: (
    alter: readonly ((fitted: CombinationDocument) => CombinationDocument)[],
  ) => Promise<readonly (readonly number[] | null)[]>;
}

/** By a size that the fit may choose; the size is in the unit of its belief. */
export interface Sized {
  readonly alter: (from: CombinationDocument, size: number) => CombinationDocument;
  /** Size of the one forecast that gives the slope. */
  readonly step: number;
  /** One standard deviation believed of a mistake, wide on purpose, and the furthest it may go. */
  readonly spread: number;
  readonly most: number;
  readonly what: (size: number) => string;
}

/** Rate that pulls commonly have, and the fastest to be believed of one that nobody states [1/min/s]; common practice, no source. */
const USUAL_RATE = 300;
const FASTEST_RATE = 1000;

/** Of a size that is off: how it moves the residuals is told by one forecast at its step. */
export async function trySized(
  ground: TrialGround,
  { step, spread, most, what }: Sized,
  residuals: readonly number[],
): Promise<TriedSuspect> {
  const { fit, unknowns } = ground;
  const slope = residuals.map((r, i) => (r - fit.residuals[i]) / step);
  const refit = await refittedWith(ground, { spread, min: -most, max: most }, slope);
  return summary(ground, what(refit.x[unknowns.length]), refit);
}

/** Of something read the other way. */
export async function tryOther(
  ground: TrialGround,
  what: string,
  residuals: readonly number[],
): Promise<TriedSuspect> {
  return summary(ground, what, await refitted(ground.unknowns, (x) => along(ground, residuals, x)));
}

/** That the pull went at a rate which its sheet keeps to itself: no forecast is needed to tell what it would have held back. */
export async function tryRate(ground: TrialGround, heldByRate: number): Promise<TriedSuspect> {
  const { unknowns, target } = ground;
  const slope = target.aims.map(({ kind, rpm, sigma }) => {
    if (kind.endsWith('speed')) return 0;
    return -(heldByRate * (kind === 'power peak' ? powerOf(1, rpm) : 1)) / sigma;
  });
  const refit = await refittedWith(ground, { spread: USUAL_RATE, min: 0, max: FASTEST_RATE }, slope);
  const rpmPerSecond = Math.round(refit.x[unknowns.length] / 10) * 10;
  const what = `rate of the pull: one that rises by ${rpmPerSecond} rpm/s holds back torque, and the sheet says nothing of it`;
  return summary(ground, what, refit);
}

/** The fit with one unknown more, which stands last and is believed to be nothing; `slope`: of each residual with it. */
function refittedWith(
  ground: TrialGround,
  { spread, min, max }: Pick<FitUnknown, 'spread' | 'min' | 'max'>,
  slope: readonly number[],
): Promise<FitResult> {
  const { fit, unknowns } = ground;
  const more: FitUnknown = { mean: 0, spread, min, max, step: 0.4 * spread };
  return refitted([...unknowns, more], (x) =>
    along(ground, fit.residuals, x).map((r, i) => r + slope[i] * x[unknowns.length]),
  );
}

/** Residuals at other knobs, straight from the slopes at the fit. */
function along({ fit }: TrialGround, from: readonly number[], x: readonly number[]): number[] {
  return from.map((r, row) =>
    fit.jacobian[row].reduce((moved, slope, k) => moved + slope * (x[k] - fit.x[k]), r),
  );
}

async function refitted(
  unknowns: readonly FitUnknown[],
  residuals: (x: readonly number[]) => number[],
): Promise<FitResult> {
  const fit = await dampedLeastSquares(unknowns, async (points) => points.map(residuals));
  // A straight problem always has its points.
  if (fit === null) throw new Error('a straight fit has no point missing');
  return fit;
}

function summary({ target, unknowns, fit }: TrialGround, what: string, refit: FitResult): TriedSuspect {
  const sumOf = ({ x, residuals }: FitResult): number =>
    unknowns.reduce(
      (sum, u, i) => sum + ((x[i] - u.mean) / u.spread) ** 2,
      residuals.reduce((sum, r) => sum + r * r, 0),
    );
  const figures = target.aims.flatMap((aim, i) =>
    aim.kind.endsWith('speed') ? [] : [(refit.residuals[i] * aim.sigma) / aim.measured],
  );
  const error = rootMeanSquare(figures);
  return { what, leaves: sumOf(refit) / sumOf(fit), error, atLimit: refit.held.some((side) => side !== 0) };
}

/** Residuals if the figures stood under another standard: the forecast is shown under that one. */
export function levelled({ target, fit }: TrialGround, standard: CorrectionStandard): readonly number[] {
  const { weather } = target;
  const factor = (of: CorrectionStandard): number => (weather === null ? 1 : brakeFactorIn(of, weather));
  const ratio = factor(standard) / factor(target.standard);
  return target.aims.map(({ kind, measured, sigma }, i) =>
    kind.endsWith('speed')
      ? fit.residuals[i]
      : ((measured + fit.residuals[i] * sigma) * ratio - measured) / sigma,
  );
}

/** For people: what a suspect would explain. */
export function suspectText({ what, error, atLimit }: TriedSuspect): string {
  const left = `the fit would then be off by ${(100 * error).toFixed(1)} %`;
  return `${what}; ${left}${atLimit ? ', some knob still at its limit' : ''}`;
}
