/** Order conditions of the tables and the order seen on a problem with a known solution. */
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import {
  createStepper,
  type Rhs,
  RK4,
  SSP2,
  SSP2_FOUR,
  SSP3,
  step,
  type Tableau,
} from '../../src/numerics/rungeKutta.ts';

const METHODS = [SSP2, SSP2_FOUR, SSP3, RK4].map((tableau) => [tableau.name, tableau] as const);
const sum = (values: readonly number[]) => values.reduce((s, v) => s + v, 0);

/** Solved by x = cos t exp(sin t), y = sin t: not linear, coupled, and dependent on time. */
const rhs: Rhs = ([t], y, d) => {
  d[0] = y[0] * (Math.cos(t) - y[1] / Math.cos(t));
  d[1] = Math.sqrt(1 - y[1] * y[1]);
};
const END = 1;

function errorWith(tableau: Tableau, steps: number): number {
  const stepper = createStepper(tableau, 2);
  const y = new Float64Array([1, 0]);
  for (let i = 0; i < steps; i++) step(stepper, rhs, (i * END) / steps, END / steps, y);
  return Math.hypot(y[0] - Math.cos(END) * Math.exp(Math.sin(END)), y[1] - Math.sin(END));
}

describe.each(METHODS)('%s', (_, tableau) => {
  it('has weights that sum to one', () => {
    expect(sum(tableau.b)).toBeCloseTo(1, 15);
  });

  it('has rows that sum to its nodes', () => {
    for (const [i, row] of tableau.a.entries()) expect(sum(row)).toBeCloseTo(tableau.c[i], 15);
  });

  it('has as many rows and nodes as weights, row i weighing i earlier stages', () => {
    expect(tableau.a.map((row) => row.length)).toEqual(tableau.b.map((_b, i) => i));
    expect(tableau.c).toHaveLength(tableau.b.length);
  });

  it('converges at its stated order', () => {
    const order = Math.log2(errorWith(tableau, 64) / errorWith(tableau, 128));
    expect(Math.abs(order - tableau.order)).toBeLessThan(0.1);
  });

  it('integrates a power of time one below its order exactly', () => {
    const y = new Float64Array([0]);
    const n = tableau.order;
    const stepper = createStepper(tableau, 1);
    step(
      stepper,
      ([t], _y, d) => {
        d[0] = n * t ** (n - 1);
      },
      0.5,
      1.5,
      y,
    );
    expect(y[0]).toBeCloseTo(2 ** n - 0.5 ** n, 12);
  });
});

/** What one step makes of y' = -y from 1. */
function decayed(tableau: Tableau, h: number): number {
  const y = new Float64Array([1]);
  step(
    createStepper(tableau, 1),
    (_t, x, d) => {
      d[0] = -x[0];
    },
    0,
    h,
    y,
  );
  return y[0];
}

describe.each(METHODS.filter(([, { order, b }]) => b.length === order))('%s', (_, tableau) => {
  it('multiplies decay by the exponential series cut after its order', () => {
    let term = 1;
    let series = 1;
    for (let i = 1; i <= tableau.order; i++) {
      term *= -0.5 / i;
      series += term;
    }
    expect(decayed(tableau, 0.5)).toBeCloseTo(series, 14);
  });
});

describe('SSP2_FOUR', () => {
  it('multiplies decay by 1/4 + 3/4 (1 - h/3)^4, without a change of sign however long the step', () => {
    expect(decayed(SSP2_FOUR, 3)).toBeCloseTo(1 / 4, 14);
    expect(decayed(SSP2_FOUR, 1.5)).toBeCloseTo(1 / 4 + 3 / 64, 14);
  });
});

describe('createStepper', () => {
  it.each([0, -1, 1.5, Number.NaN])('refuses a state of length %d', (size) => {
    expect(() => createStepper(RK4, size)).toThrow(DomainError);
  });
});
