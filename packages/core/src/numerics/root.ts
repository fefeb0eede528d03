/** A root of one equation between two points of opposite sign. */
import { DomainError } from '../base/errors.ts';

/** Where a root was found and how sure that is. Not converged is a value: the bracket still holds the root. */
export interface Root {
  /** The better end of the bracket. */
  readonly x: number;
  /** The function there. */
  readonly residual: number;
  /** Ends between which the sign changes, lower first; equal where the function is exactly zero. */
  readonly bracket: readonly [number, number];
  /** Calls of the function, ends included. */
  readonly evaluations: number;
  /** False when the calls ran out before the bracket was short enough. */
  readonly converged: boolean;
}

/** How close, and at most how many calls. */
export interface RootOptions {
  /** Length of bracket that is short enough, besides rounding; too small costs calls, nothing else. */
  readonly tolerance?: number;
  readonly maxEvaluations?: number;
}

/** Default length of bracket: rounding alone. */
export const ROOT_TOLERANCE = 0;

/** Default limit on calls; plain halving from 1e300 to rounding needs more, no physical problem does. */
export const ROOT_MAX_EVALUATIONS = 200;

const ROUNDING = 2 * Number.EPSILON;

/**
 * A zero of `f` between `a` and `b`, where its signs must differ.
 *
 * Inverse quadratic interpolation where the last three points promise that it is safe, halving otherwise
 * (T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function
 * without using derivatives", Advances in Engineering Software 28 (1997) 145-149).
 *
 * @throws {@link DomainError} where an end or a value is not a number, or the signs do not differ
 */
export function findRoot(f: (x: number) => number, a: number, b: number, options: RootOptions = {}): Root {
  const tolerance = options.tolerance ?? ROOT_TOLERANCE;
  const maxEvaluations = options.maxEvaluations ?? ROOT_MAX_EVALUATIONS;
  if (!Number.isFinite(a)) throw new DomainError('a', a, 'finite');
  if (!Number.isFinite(b)) throw new DomainError('b', b, 'finite');
  if (!(tolerance >= 0)) throw new DomainError('tolerance', tolerance, 'zero or positive');
  if (!(maxEvaluations >= 2)) throw new DomainError('maxEvaluations', maxEvaluations, 'at least 2');

  // Point 1 is the newest, point 2 lies across the root from it, point 3 is what was given up last.
  let x1 = b;
  let x2 = a;
  let f1 = valueAt(f, x1);
  let f2 = valueAt(f, x2);
  let x3 = x2;
  let f3 = f2;
  let evaluations = 2;
  if (f1 === 0) return found(x1, evaluations);
  if (f2 === 0) return found(x2, evaluations);
  if (f1 > 0 === f2 > 0) {
    throw new DomainError('[a, b]', `[${a}, ${b}]`, `a bracket with a change of sign (f = ${f2}, ${f1})`);
  }

  let fraction = 0.5;
  for (;;) {
    const best = Math.abs(f1) < Math.abs(f2) ? x1 : x2;
    const short = ROUNDING * Math.abs(best) + 0.5 * tolerance;
    const limit = short / Math.abs(x2 - x1);
    const converged = limit > 0.5;
    if (converged || evaluations >= maxEvaluations) {
      return {
        x: best,
        residual: best === x1 ? f1 : f2,
        bracket: x1 < x2 ? [x1, x2] : [x2, x1],
        evaluations,
        converged,
      };
    }
    const x = x1 + Math.min(Math.max(fraction, limit), 1 - limit) * (x2 - x1);
    const fx = valueAt(f, x);
    evaluations += 1;
    if (fx === 0) return found(x, evaluations);
    if (fx > 0 === f1 > 0) {
      x3 = x1;
      f3 = f1;
    } else {
      x3 = x2;
      f3 = f2;
      x2 = x1;
      f2 = f1;
    }
    x1 = x;
    f1 = fx;
    fraction = nextFraction(x1, f1, x2, f2, x3, f3);
  }
}

/** Where between points 1 and 2 to try next: the interpolated root if the parabola is monotone there, else the middle. */
function nextFraction(x1: number, f1: number, x2: number, f2: number, x3: number, f3: number): number {
  const xi = (x1 - x2) / (x3 - x2);
  const phi = (f1 - f2) / (f3 - f2);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  return (f1 / (f2 - f1)) * (f3 / (f2 - f3)) + ((x3 - x1) / (x2 - x1)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2));
}

function valueAt(f: (x: number) => number, x: number): number {
  const y = f(x);
  if (Number.isNaN(y)) throw new DomainError(`f(${x})`, y, 'a number');
  return y;
}

function found(x: number, evaluations: number): Root {
  return { x, residual: 0, bracket: [x, x], evaluations, converged: true };
}
