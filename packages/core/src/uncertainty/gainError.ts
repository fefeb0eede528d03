/** The model's own error of gains. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { MODEL_ERRORS } from '../forecast/modelError.ts';
import { rootMeanSquare } from '../numerics/rootMeanSquare.ts';
import type { Responses, Subjects } from './responses.ts';

/** Share of a small difference that the model may miss [-]: its sign is right in 98 of 100 cases. A judgement, no source. */
const SHARE_OF_SMALL = 0.5;
/**
 * Share of a large difference that it may miss [-]. Engines that have nothing in common are missed by 4.8 % each, 6.8 % of their difference, and an engine
 * that a change makes half or twice as strong again has little left in common with what it was. A judgement, no source.
 */
const SHARE_OF_LARGE = 0.1;
/** What keeps two changes that move the same from having no error between them, over the variance of a gain [-]. */
const APART = 1e-6;

/**
 * Variance of what the model misses in the difference between two engines that stand so far apart [-]: half of a small difference, what it
 * missed of published gains where they stand some percent apart, and a tenth of a large one. A Gaussian variogram and a field that is linear, so that any set of
 * engines has errors that agree with each other (Cressie, Statistics for Spatial Data, section 2.3; from memory).
 *
 * @param apart - difference in power, root mean square over the speeds looked at [-]
 */
export function gainVariance(apart: number): number {
  const most = MODEL_ERRORS.sheets.gain ** 2;
  return (SHARE_OF_LARGE * apart) ** 2 - most * Math.expm1(-((SHARE_OF_SMALL * apart) ** 2) / most);
}

/** Responses whose candidates carry the model's own error: shared by those that move power alike, so that it cancels between them. */
export function withModelError(responses: Responses): Responses {
  const moved = new Map<string, readonly number[]>();
  responses.candidates.forEach((subject, i) => {
    if (subject === null) return;
    const shares = responses.bySpeed.flatMap(({ baseline, candidates }) => {
      const candidate = candidates[i];
      return baseline === null || candidate === null ? [] : [candidate.power / baseline.power - 1];
    });
    moved.set(subject.name, shares);
  });
  const loadings = loadingsOf(moved);
  const carried = <T extends Subjects>(subjects: T): T => ({
    ...subjects,
    candidates: subjects.candidates.map(
      (subject) => subject && { ...subject, modelError: loadings.get(subject.name) ?? {} },
    ),
  });
  return { ...carried(responses), bySpeed: responses.bySpeed.map(carried) };
}

/** What each change takes of independent errors named after the changes, in the order of the alphabet [-]. */
function loadingsOf(
  moved: ReadonlyMap<string, readonly number[]>,
): ReadonlyMap<string, Readonly<Record<string, number>>> {
  const names = [...moved.keys()].sort();
  if (names.length === 0) return new Map();
  const sharesOf = (name: string): readonly number[] => moved.get(name) ?? [];
  const variance = (one: readonly number[], other: readonly number[]): number =>
    gainVariance(rootMeanSquare(one.map((share, i) => share - (other[i] ?? 0))));
  const alone = names.map((name) => variance(sharesOf(name), []));
  const covariance = names.map((one, i) =>
    names.map((other, j) => (alone[i] + alone[j] - variance(sharesOf(one), sharesOf(other))) / 2),
  );
  const most = MODEL_ERRORS.sheets.gain ** 2;
  const factor = new CholeskyDecomposition(
    Matrix.add(new Matrix(covariance), Matrix.eye(names.length).mul(APART * most)),
  ).lowerTriangularMatrix;
  return new Map(
    names.map((name, row) => [
      name,
      Object.fromEntries(names.slice(0, row + 1).map((other, column) => [other, factor.get(row, column)])),
    ]),
  );
}
