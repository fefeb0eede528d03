/** What each choice of a build does, alone, in pairs and by threes, learnt from builds that were forecast. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** A group of alternatives as a model sees it. */
export interface Factor {
  /** How many alternatives there are, the engine as it is among them. */
  readonly levels: number;
  /** Sizes in their order, whose effects are smooth; else alternatives without an order. */
  readonly ordered: boolean;
}

/** A build: the alternative taken of each factor, from 0. */
export type Build = readonly number[];

/** What a model says of a build that was not forecast. */
export interface Prediction {
  readonly mean: number;
  /** Standard deviation of what the mean may be off. */
  readonly sigma: number;
}

/** A model fitted to builds and what was found of them. */
export interface EffectModel {
  /** The mean of {@link predict} alone, which is quicker. */
  readonly mean: (build: Build) => number;
  readonly predict: (build: Build) => Prediction;
  /** Mean effect of each alternative of a factor, their sum nothing. */
  readonly effects: (factor: number) => readonly number[];
  /** What each fitted build would be missed by, were it left out of the fit. */
  readonly missed: readonly number[];
  /** To fit the next model from. */
  readonly weights: Weights;
}

/** How much each factor does, and how much pairs and threes do beside single effects, as variances. */
export interface Weights {
  readonly factors: readonly number[];
  readonly pairs: number;
  readonly threes: number;
}

/** Variance of the level common to all builds, beside which effects are small. */
const COMMON = 100;
/** Variance of what is neither level, effect nor interaction, beside that of one effect. */
const REST = 1e-4;
/** Of an ordered factor's variance, what is straight; the rest bends. */
const STRAIGHT = 0.75;
/** Weights are looked for in factors of these, one weight after the other. */
const STEPS: readonly number[] = [4, 2];
/** No weight leaves these bounds, so that a factor that seemed idle may still show in builds to come. */
const LEAST = 0.02;
const MOST = 50;

/** Where weights are looked for from: every factor alike, interactions smaller. */
export const firstWeights = (factors: readonly Factor[]): Weights => ({
  factors: factors.map(() => 1),
  pairs: 0.1,
  threes: 0.01,
});

/**
 * Effects, pairs and threes are taken as drawn from normal distributions about nothing, with variances that make the findings
 * likeliest: a sum of kernels over the factors (Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, equations
 * 2.25, 2.26, 2.30 and 5.12; effects as a process over two-level designs: Joseph and Delaney, Technometrics 49 (2007) 1; both from
 * memory). Contrasts of a factor sum to nothing, so that its effects are about the mean build.
 *
 * @param passes - times over all weights, begun at `weights`
 */
export function fitEffects(
  factors: readonly Factor[],
  builds: readonly Build[],
  found: readonly number[],
  weights: Weights,
  passes: number,
): EffectModel {
  const likeness = factors.map(likenessOf);
  const size = builds.length;
  const level = found.reduce((sum, value) => sum + value, 0) / size;
  const rest = Matrix.columnVector(found.map((value) => value - level));
  const covariance = (a: Build, b: Build, { factors: own, pairs, threes }: Weights): number => {
    // Elementary symmetric sums of the factors' likeness: singles, pairs, threes.
    let one = 0;
    let two = 0;
    let three = 0;
    for (let g = 0; g < factors.length; g++) {
      const value = own[g] * likeness[g][a[g]][b[g]];
      three += two * value;
      two += one * value;
      one += value;
    }
    return COMMON + one + pairs * two + threes * three;
  };
  const solved = (tried: Weights): Fit | null => {
    const matrix = Matrix.zeros(size, size);
    for (let i = 0; i < size; i++)
      for (let j = 0; j <= i; j++) {
        const value = covariance(builds[i], builds[j], tried) + (i === j ? REST : 0);
        matrix.set(i, j, value);
        matrix.set(j, i, value);
      }
    const cholesky = new CholeskyDecomposition(matrix);
    if (!cholesky.isPositiveDefinite()) return null;
    const alpha = cholesky.solve(rest);
    const lower = cholesky.lowerTriangularMatrix;
    let logDeterminant = 0;
    for (let i = 0; i < size; i++) logDeterminant += 2 * Math.log(lower.get(i, i));
    const scale = rest.dot(alpha) / size || 1;
    return { alpha, lower, scale, likelihood: -0.5 * (size * Math.log(scale) + logDeterminant) };
  };

  let best = weights;
  let fit = solved(best);
  const attempt = (tried: Weights): void => {
    const other = solved(tried);
    if (other !== null && other.likelihood > (fit?.likelihood ?? Number.NEGATIVE_INFINITY)) {
      best = tried;
      fit = other;
    }
  };
  for (let pass = 0; pass < passes; pass++)
    for (const step of STEPS)
      for (let g = -2; g < factors.length; g++)
        for (const by of [step, 1 / step]) attempt(moved(best, g, by));
  if (fit === null) throw new RangeError('builds of a model must differ');
  return modelOf(factors, builds, likeness, level, best, fit, (a, b) => covariance(a, b, best));
}

interface Fit {
  readonly alpha: Matrix;
  readonly lower: Matrix;
  readonly scale: number;
  readonly likelihood: number;
}

/** One weight times `by`: of pairs, of threes, or of a factor. */
function moved({ factors, pairs, threes }: Weights, g: number, by: number): Weights {
  const within = (value: number, least: number): number => Math.min(MOST, Math.max(least, value));
  if (g === -2) return { factors, pairs: within(pairs * by, 1e-3), threes };
  if (g === -1) return { factors, pairs, threes: within(threes * by, 1e-4) };
  return { factors: factors.map((value, i) => (i === g ? within(value * by, LEAST) : value)), pairs, threes };
}

function modelOf(
  factors: readonly Factor[],
  builds: readonly Build[],
  likeness: readonly (readonly (readonly number[])[])[],
  level: number,
  weights: Weights,
  { alpha, lower, scale }: Fit,
  covariance: (a: Build, b: Build) => number,
): EffectModel {
  const size = builds.length;
  const rows = lower.to2DArray();
  const weightsOfBuilds = alpha.getColumn(0);
  const across = new Float64Array(size);
  const predict = (build: Build): Prediction => {
    let mean = level;
    let explained = 0;
    for (let i = 0; i < size; i++) {
      const value = covariance(build, builds[i]);
      mean += value * weightsOfBuilds[i];
      // Forward substitution, as the row is at hand.
      const row = rows[i];
      let sum = value;
      for (let j = 0; j < i; j++) sum -= row[j] * across[j];
      across[i] = sum / row[i];
      explained += across[i] ** 2;
    }
    const left = covariance(build, build) + REST - explained;
    return { mean, sigma: Math.sqrt(scale * Math.max(0, left)) };
  };
  const mean = (build: Build): number =>
    builds.reduce((sum, known, i) => sum + covariance(build, known) * weightsOfBuilds[i], level);
  const effects = (g: number): readonly number[] =>
    Array.from({ length: factors[g].levels }, (_, l) =>
      builds.reduce(
        (sum, build, i) => sum + weights.factors[g] * likeness[g][l][build[g]] * weightsOfBuilds[i],
        0,
      ),
    );
  // Of a build left out: alpha over the diagonal of the inverse (Rasmussen and Williams, equation 5.12).
  const inverse = inverseDiagonal(rows);
  return { mean, predict, effects, missed: weightsOfBuilds.map((a, i) => a / inverse[i]), weights };
}

/** Diagonal of the inverse of L times its transpose. */
function inverseDiagonal(lower: readonly (readonly number[])[]): Float64Array {
  const size = lower.length;
  const diagonal = new Float64Array(size);
  const column = new Float64Array(size);
  for (let k = 0; k < size; k++)
    for (let i = k; i < size; i++) {
      let sum = i === k ? 1 : 0;
      for (let j = k; j < i; j++) sum -= lower[i][j] * column[j];
      column[i] = sum / lower[i][i];
      diagonal[k] += column[i] ** 2;
    }
  return diagonal;
}

/** How alike two alternatives of a factor are: 1 on average with itself, and nothing summed over all the others and itself. */
function likenessOf({ levels, ordered }: Factor): readonly (readonly number[])[] {
  const all = Array.from({ length: levels }, (_, l) => l);
  if (levels === 1) return [[0]];
  if (!ordered || levels === 2) return all.map((a) => all.map((b) => (a === b ? 1 : -1 / (levels - 1))));
  const straight = normalised(all.map((l) => l - (levels - 1) / 2));
  const square = straight.map((value) => value * value);
  const bent = normalised(square.map((value) => value - 1));
  return all.map((a) =>
    all.map((b) => STRAIGHT * straight[a] * straight[b] + (1 - STRAIGHT) * bent[a] * bent[b]),
  );
}

/** To a mean square of one. */
function normalised(values: readonly number[]): readonly number[] {
  const square = values.reduce((sum, value) => sum + value * value, 0) / values.length;
  return values.map((value) => value / Math.sqrt(square));
}

/** The model's own spread takes its weights as known, though they are found from the same builds: it is taken so much wider. */
const WIDER = 2;

/** What a model expects of a build, with what its weights may be off. */
export function expected(model: EffectModel, build: Build): Prediction {
  const { mean, sigma } = model.predict(build);
  return { mean, sigma: WIDER * sigma };
}
