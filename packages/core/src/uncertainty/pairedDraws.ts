/** Gains under many draws of the unknowns, each draw the same for the baseline and for every candidate. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { normalDensity } from '../numerics/normal.ts';
import { randomNamed } from '../numerics/random.ts';
import { heldWithin, type Reach } from './heldWithin.ts';

/** How mean power over the band, relative to its own nominal value, follows one unknown z [standard deviations]. */
export interface Response {
  /** Per z [-]. */
  readonly linear: number;
  /** Per z^2 [-]. */
  readonly curved: number;
  /** How far the unknown can go down and up [standard deviations]: beyond it is held there, a loss at none. Left out: any way. */
  readonly reach?: Reach;
}

/** A combination whose responses are known: the baseline, or a candidate. */
export interface Subject {
  readonly name: string;
  /** Mean power over the band with every unknown at its nominal value [kW]. */
  readonly power: number;
  /** By the unknown's id; an unknown that is missing leaves the subject alone. */
  readonly responses: Readonly<Record<string, Response>>;
  /**
   * What draws of everything at once, the same ones for every candidate, moved the relative gain beyond the responses, each over the
   * root of their number [-]: loadings on independent errors, so that what two candidates have in common cancels between them.
   */
  readonly missed: readonly number[];
  /** What the relative gain takes of independent errors of the model, one standard deviation each, by name [-]; left out: nothing. */
  readonly modelError?: Readonly<Record<string, number>>;
  /** Standard deviation of its own power where cycles never repeat, over that power [-]; left out: they all do. */
  readonly scatter?: number;
}

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

/** Standard normal deviates of an unknown or of another source of error, by its name: one entry a draw. */
export type Deviates = (id: string) => Float64Array;

/** Deviates that are drawn when they are first asked for, and kept. */
export function deviatesOf(seed: number, draws: number = DRAWS): Deviates {
  const drawn = new Map<string, Float64Array>();
  return (id) => {
    const known = drawn.get(id);
    if (known !== undefined) return known;
    const { normal } = randomNamed(seed, id);
    const z = Float64Array.from({ length: draws }, normal);
    drawn.set(id, z);
    return z;
  };
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

/** Enough that their own scatter moves a standard deviation by 1 % and a chance by 1 % at most. */
export const DRAWS = 6000;

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

/** What an unknown that is off by z standard deviations adds to power, over its nominal value [-]. */
export function movedBy({ linear, curved, reach }: Response, z: number): number {
  const held = heldWithin(reach, z);
  return held * (linear + curved * held);
}

/** Standard deviation of the relative gain from what the responses miss [-]. */
export function remainderOf({ missed }: Subject): number {
  return Math.hypot(...missed);
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

function unknownIds(subjects: readonly Subject[]): readonly string[] {
  return [...new Set(subjects.flatMap(({ responses }) => Object.keys(responses)))].sort();
}

/** Standard deviation of the draws. */
export function spreadOf(values: Float64Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

/** Share of the draws above a limit. */
export function shareAbove(values: Float64Array, limit: number): number {
  return values.reduce((count, value) => count + (value > limit ? 1 : 0), 0) / values.length;
}

/** Share of the draws in which one gain is the larger; a draw that ties counts half. */
export function chanceToBeat(one: Float64Array, other: Float64Array): number {
  const count = one.reduce((sum, value, i) => sum + (value > other[i] ? 1 : value === other[i] ? 0.5 : 0), 0);
  return count / one.length;
}

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
