/** What is left uncertain of a fit in which one unknown's effect bends. */
import { inverse, Matrix } from 'ml-matrix';

/** A fit where it ended. Slopes and places are in units of the belief: one is a standard deviation of it. */
export interface BentFit {
  /** Slopes of the residuals there, a row a residual. */
  readonly slopes: Matrix;
  /** How far each unknown is from what was believed. */
  readonly off: readonly number[];
  /** The unknown whose effect bends. */
  readonly bent: number;
  /** Residuals with that one moved so far and the others where the fit ended, each in standard deviations of the data. */
  readonly residuals: (move: number) => readonly number[];
}

/** Values of the bent unknown that are summed over: so far to both sides of the belief, in steps. A normal belief comes out to six digits. */
const REACH = 5;
const STEPS = 200;

/**
 * Mean squares and products of how far the unknowns are from where the fit ended, over all values in proportion to their
 * probability. In units of the belief squared.
 *
 * With the bent unknown held at a value, the others are a straight problem with normal errors (Gelman and others, Bayesian Data
 * Analysis, chapter 14; from memory). That gives their means and how probable the held value is. Both are then summed over the
 * values it may have. Where its effect is straight after all, the sum is the covariance of the fit, and the square of what the fit
 * stopped short of.
 */
export function bentSpread({ slopes, off, bent, residuals }: BentFit): Matrix {
  const others = off.map((_, i) => i).filter((i) => i !== bent);
  // Covariance of the others with the bent one held: the same wherever it is held.
  const free = new Matrix(slopes.to2DArray().map((row) => others.map((i) => row[i])));
  const left = inverse(Matrix.add(free.transpose().mmul(free), Matrix.eye(others.length)));
  const held = Array.from({ length: STEPS + 1 }, (_, i) => {
    const move = REACH * ((2 * i) / STEPS - 1) - off[bent];
    // Normal equations of the others: gradient, means, and the sum of squares that is left.
    const missed = residuals(move);
    const pull = free
      .transpose()
      .mmul(Matrix.columnVector([...missed]))
      .to1DArray();
    const towards = Matrix.columnVector(pull.map((p, at) => p + off[others[at]]));
    const means = left.mmul(towards).to1DArray();
    const explained = towards.to1DArray().reduce((sum, g, at) => sum + g * means[at], 0);
    const sum = missed.reduce((squares, r) => squares + r * r, (off[bent] + move) ** 2) - explained;
    const moves = off.map((_, i) => (i === bent ? move : -means[others.indexOf(i)]));
    return { sum, moves };
  });
  // Probabilities go with exp(-sum / 2); the least sum is taken off so that they don't vanish.
  const least = Math.min(...held.map(({ sum }) => sum));
  const weights = held.map(({ sum }) => Math.exp((least - sum) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const square = (i: number, j: number): number =>
    held.reduce((sum, { moves }, at) => sum + (weights[at] / total) * moves[i] * moves[j], 0);
  const within = (i: number, j: number): number =>
    i === bent || j === bent ? 0 : left.get(others.indexOf(i), others.indexOf(j));
  return new Matrix(off.map((_, i) => off.map((__, j) => within(i, j) + square(i, j))));
}
