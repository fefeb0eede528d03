/** Gains under many draws of the unknowns, each draw the same for the baseline and for every candidate. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { type Deviates, DRAWS, deviatesOf } from './deviates.ts';
import { movedBy, type Subject, unknownIds } from './responseSurface.ts';

/** Unknowns whose errors go together: ids, and their correlation in that order [-]. */
export interface Correlated {
  readonly ids: readonly string[];
  readonly correlation: readonly (readonly number[])[];
}

/** How often to draw, from which seed, and what goes together. */
export interface DrawOptions {
  readonly seed: number;
  /** Default {@link DRAWS}. */
  readonly draws?: number;
  readonly correlated?: Correlated | null;
  /** Left out: drawn anew. Given by who draws more than once, from {@link deviatesOf} that seed and number. */
  readonly deviates?: Deviates;
}

/** What came of the draws; one entry a draw. */
export interface PairedDraws {
  /** Relative change of the baseline's power [-]. */
  readonly baseline: Float64Array;
  /** Relative change of each candidate's power [-], in the order of the candidates. */
  readonly absolute: readonly Float64Array[];
  /** Gain of each candidate over the baseline of the same draw [%]. */
  readonly gains: readonly Float64Array[];
}

/** A response surface reaches no further than this: below it the engine would hardly run [-]. */
const LEAST_POWER = 0.05;

/**
 * Draws every unknown from a normal distribution and reads baseline and candidates off their response surfaces with the
 * same draw, so that what is common to both cancels in the gain (common random numbers: Law and Kelton, Simulation
 * Modeling and Analysis, chapter 11; from memory). Effects of different unknowns on one subject add.
 */
export function pairedDraws(
  baseline: Subject,
  candidates: readonly Subject[],
  { seed, draws = DRAWS, correlated = null, deviates = deviatesOf(seed, draws) }: DrawOptions,
): PairedDraws {
  const subjects = [baseline, ...candidates];
  const surfaces = subjects.map(() => new Float64Array(draws).fill(1));
  const together =
    correlated === null ? new Map<string, Float64Array>() : correlatedDeviates(correlated, deviates);
  for (const id of unknownIds(subjects)) {
    const z = together.get(id) ?? deviates(id);
    subjects.forEach(({ responses }, s) => {
      if (!Object.hasOwn(responses, id)) return;
      const [surface, response] = [surfaces[s], responses[id]];
      for (let i = 0; i < draws; i++) surface[i] += movedBy(response, z[i]);
    });
  }
  subjects.forEach(({ name, scatter = 0 }, s) => {
    if (scatter === 0) return;
    const z = deviates(`cycles of ${name}`);
    for (let i = 0; i < draws; i++) surfaces[s][i] += scatter * z[i];
  });
  const base = surfaces[0];
  const gains = candidates.map((candidate, c) => {
    const ratio = candidate.power / baseline.power;
    const rest = new Float64Array(draws);
    const load = (name: string, share: number): void => {
      const z = deviates(name);
      for (let i = 0; i < draws; i++) rest[i] += share * z[i];
    };
    for (const [name, share] of Object.entries(candidate.modelError ?? {})) load(`model on ${name}`, share);
    candidate.missed.forEach((share, k) => {
      load(`rest of draw ${k}`, share);
    });
    return base.map((b, i) => {
      const own = Math.max(LEAST_POWER, surfaces[c + 1][i]);
      return 100 * ((ratio * own) / Math.max(LEAST_POWER, b) + rest[i] - 1);
    });
  });
  const change = (surface: Float64Array): Float64Array => surface.map((value) => value - 1);
  return { baseline: change(base), absolute: surfaces.slice(1).map(change), gains };
}

/** Deviates with a given correlation: its Cholesky factor times independent ones. */
function correlatedDeviates(
  { ids, correlation }: Correlated,
  deviates: Deviates,
): ReadonlyMap<string, Float64Array> {
  const independent = ids.map(deviates);
  const factor = choleskyFactor(correlation);
  return new Map(
    ids.map((id, row) => [
      id,
      independent[row].map((_, i) => independent.reduce((sum, z, k) => sum + factor.get(row, k) * z[i], 0)),
    ]),
  );
}

/** Of the matrix, or where rounding left it indefinite, of the nearest one with its correlations shrunk a little. */
function choleskyFactor(correlation: readonly (readonly number[])[]): Matrix {
  for (const kept of [1, 0.9999, 0.99, 0.9]) {
    const shrunk = correlation.map((row, i) => row.map((value, j) => (i === j ? 1 : kept * value)));
    const cholesky = new CholeskyDecomposition(new Matrix(shrunk));
    if (cholesky.isPositiveDefinite()) return cholesky.lowerTriangularMatrix;
  }
  return Matrix.eye(correlation.length);
}
