/** Our steps of Runge-Kutta beside a library's driver, on a smooth problem to the same error: two bodies on an ellipse. */
import odex from 'odex';
import { createStepper, RK4, step } from './core.mjs';
import { paired, seconds } from './measure.mjs';

/** Eccentricity 0.3, one turn: back where it began. */
const START = [0.7, 0, 0, Math.sqrt(1.3 / 0.7)];
const TURN = 2 * Math.PI;
const TURNS = 20;
const STEPS = 1500;

function pull(_t, y, d) {
  const r3 = (y[0] * y[0] + y[1] * y[1]) ** 1.5;
  d[0] = y[2];
  d[1] = y[3];
  d[2] = -y[0] / r3;
  d[3] = -y[1] / r3;
}

const errorOf = (y) => Math.hypot(y[0] - START[0], y[1] - START[1]);

function ours() {
  const stepper = createStepper(RK4, 4);
  const y = Float64Array.from(START);
  const h = TURN / STEPS;
  for (let i = 0; i < STEPS * TURNS; i++) step(stepper, pull, i * h, h, y);
  return y;
}

function theirs(tolerance) {
  const solver = new odex.Solver(4);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  const right = (t, y) => {
    const d = [0, 0, 0, 0];
    pull(t, y, d);
    return d;
  };
  return solver.solve(right, 0, START, TURN * TURNS);
}

export async function odeRow() {
  const error = errorOf(ours());
  // The loosest tolerance whose error is no larger than ours.
  let tolerance = 1e-3;
  while (errorOf(theirs(tolerance).y) > error) tolerance /= 2;
  const evaluations = theirs(tolerance).nEval;
  return [
    {
      name: 'classical Runge-Kutta steps, twenty turns of two bodies',
      unit: 'ns a right-hand side',
      ...(await paired(
        () => (1e9 * seconds(ours)) / (4 * STEPS * TURNS),
        () => (1e9 * seconds(() => theirs(tolerance))) / evaluations,
      )),
      against: `odex, Hairer's extrapolation, to the same error (it takes ${evaluations}, we ${4 * STEPS * TURNS})`,
    },
  ];
}
