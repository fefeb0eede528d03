/** Explicit Runge-Kutta methods as data, and one step of any of them. Knows no physics. */
import { DomainError } from '../base/errors.ts';

/** Butcher table of an explicit method: row i of `a` weighs the earlier stages, `b` the result, `c` the nodes. */
export interface Tableau {
  readonly name: string;
  /** Order of accuracy proved for smooth problems. */
  readonly order: number;
  readonly a: readonly (readonly number[])[];
  readonly b: readonly number[];
  readonly c: readonly number[];
}

/**
 * Heun's method, two stages, strong-stability-preserving: total variation of the duct scheme does not grow.
 * @see Shu and Osher, J. Comput. Phys. 77 (1988) 439, eq. 2.15
 */
export const SSP2: Tableau = { name: 'SSP2', order: 2, a: [[], [1]], b: [1 / 2, 1 / 2], c: [0, 1] };

/**
 * Four stages, second order, strong-stability-preserving at steps three times as long as {@link SSP2}'s: two thirds of the
 * work for the same time.
 * @see Spiteri and Ruuth, SIAM J. Numer. Anal. 40 (2002) 469, section 3.1 (optimal methods of order 2)
 */
export const SSP2_FOUR: Tableau = {
  name: 'SSP2_FOUR',
  order: 2,
  a: [[], [1 / 3], [1 / 3, 1 / 3], [1 / 3, 1 / 3, 1 / 3]],
  b: [1 / 4, 1 / 4, 1 / 4, 1 / 4],
  c: [0, 1 / 3, 2 / 3, 1],
};

/**
 * Three stages, third order, strong-stability-preserving.
 * @see Shu and Osher, J. Comput. Phys. 77 (1988) 439, eq. 2.18
 */
export const SSP3: Tableau = {
  name: 'SSP3',
  order: 3,
  a: [[], [1], [1 / 4, 1 / 4]],
  b: [1 / 6, 1 / 6, 2 / 3],
  c: [0, 1, 1 / 2],
};

/** The classical method. @see Kutta, Z. Math. Phys. 46 (1901) 435 */
export const RK4: Tableau = {
  name: 'RK4',
  order: 4,
  a: [[], [1 / 2], [0, 1 / 2], [0, 0, 1]],
  b: [1 / 6, 1 / 3, 1 / 3, 1 / 6],
  c: [0, 1 / 2, 1 / 2, 1],
};

/**
 * Right-hand side dy/dt = f(t, y), written into `dydt`. Must not keep or modify `y`. The time is `t[0]`: a number handed over would be
 * put on the heap at every stage.
 */
export type Rhs = (t: Float64Array, y: Float64Array, dydt: Float64Array) => void;

/** Times of a stepper: of the stage at hand, where the step begins, and how long it is. */
export const TIME = { stage: 0, from: 1, span: 2 } as const;

/** Weight of a sum of rates [s]. Handed over as a number it would be put on the heap at every stage. */
const WEIGHT = { rate: 0 } as const;

/** y becomes y + rate k. */
function addScaled(y: Float64Array, k: Float64Array, weights: Float64Array): void {
  const w = weights[WEIGHT.rate];
  for (let q = 0; q < y.length; q++) y[q] += w * k[q];
}

/** y becomes y + carried (trial - y) + rate k. */
function carryOver({ trial, carried, weights }: Stepper, y: Float64Array, k: Float64Array): void {
  const w = weights[WEIGHT.rate];
  for (let q = 0; q < y.length; q++) y[q] += carried * (trial[q] - y[q]) + w * k[q];
}

/** Stage storage of a method for states of one length; reused from step to step. */
export interface Stepper {
  readonly tableau: Tableau;
  /** See {@link WEIGHT}. */
  readonly weights: Float64Array;
  /** Whether a stage's row of `a` repeats the row before: it goes on from that one's trial state. */
  readonly repeats: readonly boolean[];
  /** Share of the last stage's trial state in the result, where the weights allow that to be used; else zero. */
  readonly carried: number;
  readonly stages: readonly Float64Array[];
  readonly trial: Float64Array;
  /** See {@link TIME}. */
  readonly time: Float64Array;
}

/**
 * @param vector - makes the arrays that the right-hand side is given
 * @throws {@link DomainError} if `size` is not a positive whole number
 */
export function createStepper(
  tableau: Tableau,
  size: number,
  vector: () => Float64Array = () => new Float64Array(size),
): Stepper {
  if (!(Number.isInteger(size) && size > 0)) throw new DomainError('size', size, 'a positive whole number');
  return {
    tableau,
    weights: new Float64Array(1),
    repeats: tableau.a.map((row, i) => i > 1 && tableau.a[i - 1].every((w, j) => w === row[j])),
    carried: carriedShare(tableau),
    stages: tableau.b.map(() => vector()),
    trial: vector(),
    time: new Float64Array(3),
  };
}

/** One factor between the weights of the result and of the last stage: what that stage's trial state has summed need not be summed again. */
function carriedShare({ a, b }: Tableau): number {
  const last = a[a.length - 1];
  if (last.length === 0) return 0;
  const share = b[0] / last[0];
  return last.every((w, j) => Math.abs(b[j] - share * w) < 1e-15) ? share : 0;
}

/** Advances `y` in place from `t` to `t + h`. Allocates nothing. */
export function step(stepper: Stepper, rhs: Rhs, t: number, h: number, y: Float64Array): void {
  const { time, stages } = stepper;
  time[TIME.stage] = t;
  time[TIME.from] = t;
  time[TIME.span] = h;
  rhs(time, y, stages[0]);
  finishStep(stepper, rhs, y);
}

/**
 * A step whose first stage, f(t, y), stands in `stepper.stages[0]` already, and its beginning and length in `stepper.time`: a driver
 * that looks at each state on its way has worked them out.
 */
export function finishStep(stepper: Stepper, rhs: Rhs, y: Float64Array): void {
  const { tableau, weights, repeats, carried, stages, trial, time } = stepper;
  const { a, b, c } = tableau;
  const t = time[TIME.from];
  const h = time[TIME.span];
  for (let i = 1; i < stages.length; i++) {
    if (!repeats[i]) trial.set(y);
    for (let j = repeats[i] ? i - 1 : 0; j < i; j++) {
      weights[WEIGHT.rate] = h * a[i][j];
      if (a[i][j] !== 0) addScaled(trial, stages[j], weights);
    }
    time[TIME.stage] = t + c[i] * h;
    rhs(time, trial, stages[i]);
  }
  const last = stages.length - 1;
  if (carried > 0) {
    weights[WEIGHT.rate] = h * b[last];
    carryOver(stepper, y, stages[last]);
    return;
  }
  for (let i = 0; i <= last; i++) {
    weights[WEIGHT.rate] = h * b[i];
    addScaled(y, stages[i], weights);
  }
}
