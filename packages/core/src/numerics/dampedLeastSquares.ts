/** Damped least squares with what was known before, within limits; several points are asked for at once. */
import { EigenvalueDecomposition, inverse, Matrix, solve } from 'ml-matrix';
import { DomainError } from '../base/errors.ts';
import { bentSpread } from './bentSpread.ts';
import { monotoneCubic } from './interpolate.ts';

/** One unknown of a fit. */
export interface FitUnknown {
  /** What is believed before the fit. */
  readonly mean: number;
  /** One standard deviation of what is believed, positive. */
  readonly spread: number;
  /** Limits it is held within. */
  readonly min: number;
  readonly max: number;
  /** Step of the difference that gives its slope. */
  readonly step: number;
  /**
   * `straight`: its slope is taken once. `bent`, one of a fit at most: its effect bends over what is believed of it, and what the fit
   * leaves open is summed over its values. Left out: its slope is taken anew in each round.
   */
  readonly effect?: 'straight' | 'bent' | undefined;
}

/**
 * Residuals at several points, each in standard deviations of the data; the points of one call may be worked out side by
 * side. Null for a point that was not worked out.
 */
export type Residuals = (
  points: readonly (readonly number[])[],
) => Promise<readonly (readonly number[] | null)[]>;

/** Where a fit came to. */
export interface FitResult {
  /** False where points were missing: the best so far. */
  readonly complete: boolean;
  /** Whether another step would gain next to nothing. */
  readonly settled: boolean;
  /** The unknowns found, in their own units. */
  readonly x: readonly number[];
  /** Residuals there, in standard deviations of the data. */
  readonly residuals: readonly number[];
  /** Slopes of the residuals, a row a residual. */
  readonly jacobian: readonly (readonly number[])[];
  /** Mean squares and products of what `x` may be off by, data and belief together: in a straight problem the covariance. */
  readonly covariance: readonly (readonly number[])[];
  /** Of the data alone, in units of the belief: 1 is as much as was believed, along each axis. */
  readonly information: { readonly values: readonly number[]; readonly axes: readonly (readonly number[])[] };
  /** -1, 1: held at its lower, upper limit while the data ask for more; 0: free. */
  readonly held: readonly (-1 | 0 | 1)[];
  /** Steps that were tried. */
  readonly rounds: number;
  /** Points whose residuals were asked for. */
  readonly points: number;
}

const MAX_ROUNDS = 8;
/** A step that promises less than this of the sum ends the fit: about a seventh of a standard deviation of what is left. */
const SMALL_GAIN = 0.02;
/** Damping at first; what it is divided by after a step that gained, and multiplied by after one that did not; where the fit gives up [-]. */
const FIRST_DAMPING = 1e-3;
const DAMPING_FALL = 10;
const DAMPING_RISE = 30;
const MOST_DAMPING = 1e6;
/** An unknown this near its limit counts as at it [-] of its spread: rounding. */
const AT_LIMIT = 1e-6;
/** Where the effect of an unknown that bends is looked at once the fit has ended, from what is believed, in its spreads. */
const LOOKED_AT = [-1.8, -0.9, 0, 0.9, 1.8];
/** A look nearer than this to another one, in spreads, would tell nothing new. */
const APART = 0.4;

/**
 * Minimises the sum of squares of residuals and of (x - mean) / spread, from the means on.
 *
 * Levenberg (1944) and Marquardt (1963): the normal equations with a damping that shrinks as long as the sum falls. Unknowns
 * at a limit are held there while the sum falls beyond it. The slopes are one-sided differences, asked for together with
 * the point itself, so that a round is one call.
 */
export async function dampedLeastSquares(
  unknowns: readonly FitUnknown[],
  residuals: Residuals,
): Promise<FitResult | null> {
  let points = 0;
  const counted: Residuals = (asked) => {
    points += asked.length;
    return residuals(asked);
  };
  const descent = await descend(unknowns, counted);
  if (descent === null) return null;
  const { best, complete, settled, rounds } = descent;
  const scaled = scaledJacobian(unknowns, best);
  const curvature = scaled.transpose().mmul(scaled);
  const eigen = new EigenvalueDecomposition(curvature, { assumeSymmetric: true });
  const spread = (i: number): number => unknowns[i].spread;
  const open = complete ? await bentEffect(unknowns, best, counted) : null;
  const posterior = (
    open === null ? inverse(Matrix.add(curvature, Matrix.eye(unknowns.length))) : open(scaled)
  ).to2DArray();
  return {
    complete,
    settled,
    x: best.x,
    residuals: best.residuals,
    jacobian: best.jacobian,
    covariance: posterior.map((row, i) => row.map((value, j) => value * spread(i) * spread(j))),
    information: {
      values: eigen.realEigenvalues,
      axes: eigen.eigenvectorMatrix.transpose().to2DArray(),
    },
    held: heldAt(unknowns, best),
    rounds,
    points,
  };
}

/** A point of a fit, what was found there, and the sum that is minimised. */
interface Look {
  readonly x: readonly number[];
  readonly residuals: readonly number[];
  readonly jacobian: readonly (readonly number[])[];
  readonly sum: number;
}

/** The best point that damped steps reach from what is believed; null where not even that could be worked out. */
async function descend(
  unknowns: readonly FitUnknown[],
  residuals: Residuals,
): Promise<(Pick<FitResult, 'complete' | 'settled' | 'rounds'> & { readonly best: Look }) | null> {
  const means = unknowns.map((u) => u.mean);
  let best = await look(unknowns, residuals, means, null);
  if (best === null) return null;
  let damping = FIRST_DAMPING;
  let settled = false;
  let rounds = 0;
  while (rounds < MAX_ROUNDS && !settled) {
    rounds += 1;
    const next = stepFrom(unknowns, best, damping);
    if (promised(unknowns, best, next) < SMALL_GAIN) {
      settled = true;
      break;
    }
    const trial = await look(unknowns, residuals, next, best);
    if (trial === null) return { best, complete: false, settled, rounds };
    if (trial.sum < best.sum) {
      settled = best.sum - trial.sum < SMALL_GAIN;
      best = trial;
      damping /= DAMPING_FALL;
    } else {
      damping = Math.max(1, damping * DAMPING_RISE);
      settled = damping > MOST_DAMPING;
    }
  }
  return { best, complete: true, settled, rounds };
}

/** Residuals and slopes at a point; slopes of straight unknowns are those of the look before. Null where a point was not worked out. */
async function look(
  unknowns: readonly FitUnknown[],
  residuals: Residuals,
  x: readonly number[],
  before: Look | null,
): Promise<Look | null> {
  const stepped = unknowns
    .map((_, i) => i)
    .filter((i) => before === null || unknowns[i].effect !== 'straight');
  const steps = unknowns.map((u, i) => (x[i] + u.step <= u.max ? u.step : -u.step));
  const asked = [x, ...stepped.map((i) => x.map((value, j) => (i === j ? value + steps[i] : value)))];
  const [at, ...beside] = await residuals(asked);
  if (at === null || at === undefined || beside.some((r) => r === null)) return null;
  const jacobian = at.map((r, row) => {
    const slopes = [...(before?.jacobian[row] ?? [])];
    for (const [k, i] of stepped.entries()) slopes[i] = ((beside[k]?.[row] ?? Number.NaN) - r) / steps[i];
    return slopes;
  });
  return { x, residuals: at, jacobian, sum: sumOf(unknowns, x, at) };
}

/**
 * What the fit leaves open where one unknown's effect bends, by the scaled slopes; null where none does, or a point was not worked out.
 *
 * The residuals are looked at over the values the unknown may have, and a smooth curve is laid through each.
 */
async function bentEffect(
  unknowns: readonly FitUnknown[],
  { x, residuals: there, jacobian }: Look,
  residuals: Residuals,
): Promise<((slopes: Matrix) => Matrix) | null> {
  const [bent, second] = unknowns.flatMap(({ effect }, i) => (effect === 'bent' ? [i] : []));
  if (second !== undefined) throw new DomainError('effect', 'bent', 'said of one unknown at most');
  if (bent === undefined) return null;
  const { mean, spread, step, min, max } = unknowns[bent];
  const from = (to: number): number => (to - x[bent]) / spread;
  const beside = from(x[bent] + step <= max ? x[bent] + step : x[bent] - step);
  const known = [
    { move: 0, residuals: there },
    { move: beside, residuals: there.map((r, row) => r + jacobian[row][bent] * beside * spread) },
  ];
  const moves = LOOKED_AT.map((s) => from(Math.min(max, Math.max(min, mean + s * spread)))).filter((move) =>
    known.every((look) => Math.abs(look.move - move) > APART),
  );
  const found = await residuals(
    moves.map((move) => x.map((value, i) => (i === bent ? value + move * spread : value))),
  );
  const looks = [...known];
  for (const [i, look] of found.entries()) {
    if (look === null) return null;
    looks.push({ move: moves[i], residuals: look });
  }
  looks.sort((a, b) => a.move - b.move);
  const curves = there.map((_, row) =>
    monotoneCubic(
      looks.map(({ move }) => move),
      looks.map((look) => look.residuals[row]),
    ),
  );
  const off = unknowns.map((u, i) => (x[i] - u.mean) / u.spread);
  return (slopes) =>
    bentSpread({ slopes, off, bent, residuals: (move) => curves.map((curve) => curve.valueAt(move)) });
}

/** The sum that is minimised: squares of the residuals and of the distances from what is believed. */
function sumOf(unknowns: readonly FitUnknown[], x: readonly number[], residuals: readonly number[]): number {
  const data = residuals.reduce((sum, r) => sum + r * r, 0);
  return unknowns.reduce((sum, u, i) => sum + ((x[i] - u.mean) / u.spread) ** 2, data);
}

/** Slopes per standard deviation of belief. */
function scaledJacobian(unknowns: readonly FitUnknown[], { jacobian }: Look): Matrix {
  return new Matrix(jacobian.map((row) => row.map((slope, i) => slope * unknowns[i].spread)));
}

/** Half the gradient of the sum, in units of belief. */
function gradient(unknowns: readonly FitUnknown[], look: Look): number[] {
  const scaled = scaledJacobian(unknowns, look);
  const data = scaled
    .transpose()
    .mmul(Matrix.columnVector([...look.residuals]))
    .to1DArray();
  return data.map((g, i) => g + (look.x[i] - unknowns[i].mean) / unknowns[i].spread);
}

/** For each unknown whether a limit holds it: see {@link FitResult.held}. */
function heldAt(unknowns: readonly FitUnknown[], look: Look): (-1 | 0 | 1)[] {
  const slope = gradient(unknowns, look);
  return unknowns.map((u, i) => {
    const room = AT_LIMIT * u.spread;
    if (look.x[i] <= u.min + room && slope[i] > 0) return -1;
    return look.x[i] >= u.max - room && slope[i] < 0 ? 1 : 0;
  });
}

/** The damped step, with unknowns that run into a limit held there and the others solved again. */
function stepFrom(unknowns: readonly FitUnknown[], look: Look, damping: number): number[] {
  const scaled = scaledJacobian(unknowns, look);
  const curvature = scaled.transpose().mmul(scaled).add(Matrix.eye(unknowns.length));
  const slope = gradient(unknowns, look);
  const fixed = new Map<number, number>();
  heldAt(unknowns, look).forEach((held, i) => {
    if (held !== 0) fixed.set(i, 0);
  });
  for (;;) {
    const free = unknowns.map((_, i) => i).filter((i) => !fixed.has(i));
    if (free.length === 0) return moved(unknowns, look, fixed);
    const left = new Matrix(
      free.map((i) => free.map((j) => curvature.get(i, j) * (i === j ? 1 + damping : 1))),
    );
    const right = free.map((i) => {
      let sum = -slope[i];
      for (const [j, move] of fixed) sum -= curvature.get(i, j) * move;
      return sum;
    });
    const steps = solve(left, Matrix.columnVector(right)).to1DArray();
    const moves = new Map(fixed);
    free.forEach((i, at) => {
      moves.set(i, steps[at]);
    });
    const over = free.find((i) => {
      const to = look.x[i] + (moves.get(i) ?? 0) * unknowns[i].spread;
      return to < unknowns[i].min || to > unknowns[i].max;
    });
    if (over === undefined) return moved(unknowns, look, moves);
    const to = look.x[over] + (moves.get(over) ?? 0) * unknowns[over].spread;
    const limit = to < unknowns[over].min ? unknowns[over].min : unknowns[over].max;
    fixed.set(over, (limit - look.x[over]) / unknowns[over].spread);
  }
}

/** The point that moves, in units of belief, lead to; rounding may not carry it past a limit. */
function moved(unknowns: readonly FitUnknown[], look: Look, moves: ReadonlyMap<number, number>): number[] {
  return unknowns.map((u, i) => Math.min(u.max, Math.max(u.min, look.x[i] + (moves.get(i) ?? 0) * u.spread)));
}

/** How much smaller the sum would be at another point, were the problem straight. */
function promised(unknowns: readonly FitUnknown[], look: Look, to: readonly number[]): number {
  const move = unknowns.map((u, i) => (to[i] - look.x[i]) / u.spread);
  const scaled = scaledJacobian(unknowns, look);
  const along = scaled.mmul(Matrix.columnVector(move)).to1DArray();
  const slope = gradient(unknowns, look).reduce((sum, g, i) => sum + g * move[i], 0);
  const bend = along.reduce((sum, a) => sum + a * a, 0) + move.reduce((sum, m) => sum + m * m, 0);
  return -(2 * slope + bend);
}
