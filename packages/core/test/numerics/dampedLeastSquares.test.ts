import { describe, expect, it } from 'vitest';
import {
  dampedLeastSquares,
  type FitUnknown,
  type Residuals,
} from '../../src/numerics/dampedLeastSquares.ts';

const free = (mean: number, spread: number): FitUnknown => ({
  mean,
  spread,
  min: -1e9,
  max: 1e9,
  step: 1e-4,
});

/** Residuals of a function, each point on its own. */
const each =
  (f: (x: readonly number[]) => readonly number[]): Residuals =>
  async (points) =>
    points.map(f);

describe('dampedLeastSquares(unknowns, residuals)', () => {
  it('weighs data against belief: believed 0 +/- 1, measured 2 +/- 1, gives 1 +/- 0.7071', async () => {
    const fit = await dampedLeastSquares(
      [free(0, 1)],
      each(([x]) => [x - 2]),
    );
    expect(fit?.x[0]).toBeCloseTo(1, 2);
    expect(Math.sqrt(fit?.covariance[0][0] ?? 0)).toBeCloseTo(Math.SQRT1_2, 4);
    expect(fit?.settled).toBe(true);
  });

  it('finds a curve again where belief is weak: 2 exp(-t / 2), started from exp(-t)', async () => {
    const times = [0, 0.5, 1, 2, 3, 4];
    const decay = each(([a, b]) => times.map((t) => 1000 * (a * Math.exp(b * t) - 2 * Math.exp(-t / 2))));
    const fit = await dampedLeastSquares([free(1, 2), free(-1, 2)], decay);
    // A fit ends where steps fall below 5 % of belief, here 0.1.
    expect(Math.abs((fit?.x[0] ?? 0) - 2)).toBeLessThan(0.1);
    expect(Math.abs((fit?.x[1] ?? 0) + 0.5)).toBeLessThan(0.1);
  });

  it('says which direction the data cannot see: only a sum is measured', async () => {
    const fit = await dampedLeastSquares(
      [free(0, 1), free(0, 1)],
      each(([a, b]) => [100 * (a + b - 1)]),
    );
    const values = [...(fit?.information.values ?? [])].sort((a, b) => a - b);
    expect(values[0]).toBeCloseTo(0, 3);
    expect(values[1]).toBeCloseTo(20_000, -1);
    const covariance = fit?.covariance ?? [];
    expect(covariance[0][1] / Math.sqrt(covariance[0][0] * covariance[1][1])).toBeCloseTo(-1, 3);
  });

  it('stops at a limit, solves the others again and says which way the data push', async () => {
    const limited: FitUnknown = { mean: 0, spread: 1, min: -0.5, max: 0.5, step: 1e-4 };
    const fit = await dampedLeastSquares(
      [limited, free(0, 1)],
      each(([a, b]) => [30 * (a - 3), 30 * (b + a - 2)]),
    );
    expect(fit?.x[0]).toBe(0.5);
    expect(fit?.x[1]).toBeCloseTo(1.5, 1);
    expect(fit?.held).toEqual([1, 0]);
  });

  it.each([
    [-12, 30, -40, -12],
    [-30, 12, 40, 12],
  ])(
    'stops at the limit that the data push against, %d or %d, however wide the belief',
    async (min, max, told, limit) => {
      const wide: FitUnknown = { mean: 0, spread: 10, min, max, step: 1e-3 };
      let looks = 0;
      const fit = await dampedLeastSquares([wide], async (points) => {
        looks += 1;
        return points.map(([x]) => [x - told]);
      });
      expect(fit?.x).toEqual([limit]);
      expect(looks).toBeLessThanOrEqual(4);
    },
  );

  it('gives up after eight rounds, with the best so far, where every one falls further', async () => {
    // exp(-x) without end: each round takes x one further.
    let asked = 0;
    const falling: Residuals = async (points) => {
      asked += 1;
      return points.map(([x]) => [1e9 * Math.exp(-x)]);
    };
    const fit = await dampedLeastSquares([free(0, 1e9)], falling);
    expect(fit?.settled).toBe(false);
    // The start and eight rounds.
    expect(asked).toBe(9);
    expect(fit?.x[0]).toBeCloseTo(8, 0);
  });

  it('asks for all slopes of a round at once, and a straight problem takes three rounds at most', async () => {
    let calls = 0;
    const fit = await dampedLeastSquares([free(0, 1), free(0, 1)], async (points) => {
      calls += 1;
      expect(points).toHaveLength(3);
      return points.map(([a, b]) => [3 * a + b - 1, a - 2 * b]);
    });
    expect(calls).toBeLessThanOrEqual(3);
    expect(fit?.points).toBe(3 * calls);
  });

  it('gives the best so far where points go missing, and nothing where the first does', async () => {
    let calls = 0;
    const failing: Residuals = async (points) =>
      calls++ > 0 ? points.map(() => null) : points.map(([x]) => [x - 2]);
    expect((await dampedLeastSquares([free(0, 1)], failing))?.complete).toBe(false);
    expect(await dampedLeastSquares([free(0, 1)], async (points) => points.map(() => null))).toBeNull();
  });

  it('leaves as much open where an effect that is straight is called bent, and where slopes are taken once', async () => {
    const straight = each(([a, b]) => [3 * a + b - 1, a - 2 * b]);
    const plain = await dampedLeastSquares([free(0, 1), free(0, 1)], straight);
    const bent: FitUnknown = { ...free(0, 1), min: -2, max: 2, step: 0.4, effect: 'bent' };
    const summed = await dampedLeastSquares([{ ...free(0, 1), effect: 'straight' }, bent], straight);
    const { x, covariance } = plain ?? { x: [], covariance: [[]] };
    summed?.covariance.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(value).toBeCloseTo(covariance[i][j], 3);
      });
      expect(summed.x[i]).toBeCloseTo(x[i], 3);
    });
  });

  it('sums what a bent effect leaves open over its values: no slope where the fit starts, a steep one beyond', async () => {
    const effect = (x: number): number => 2 * Math.max(0, x - 0.5) ** 2;
    const data = (a: number, b: number): readonly number[] => [effect(a) + b, 2 * b - effect(a)];
    const unknowns: FitUnknown[] = [
      { ...free(0, 1), min: -2, max: 2, step: 0.4, effect: 'bent' },
      free(0, 1),
    ];
    const fit = await dampedLeastSquares(
      unknowns,
      each(([a, b]) => data(a, b)),
    );
    const [at, beside] = fit?.x ?? [];
    // Both integrals by a fine grid over both unknowns.
    let total = 0;
    let square = 0;
    for (let a = -6; a <= 6; a += 0.02) {
      for (let b = -6; b <= 6; b += 0.02) {
        const sum = data(a, b).reduce((squares, r) => squares + r * r, a * a + b * b);
        total += Math.exp(-sum / 2);
        square += Math.exp(-sum / 2) * (a - at) ** 2;
      }
    }
    expect(beside).toBeCloseTo(0, 2);
    // The cubic through five looks is not the effect itself: within 5 %.
    expect((fit?.covariance[0][0] ?? 0) / (square / total)).toBeCloseTo(1, 1.3);
    // By the slope at the fit alone it would be 1.
    expect(square / total).toBeLessThan(0.8);
  });

  it('refuses two unknowns whose effects bend', async () => {
    const bent: FitUnknown = { ...free(0, 1), effect: 'bent' };
    await expect(
      dampedLeastSquares(
        [bent, bent],
        each(([a, b]) => [a + b]),
      ),
    ).rejects.toThrow(/effect/);
  });
});
