import { describe, expect, it } from 'vitest';
import { MODEL_ERRORS } from '../../src/forecast/modelError.ts';
import { standardDeviation } from '../../src/numerics/standardDeviation.ts';
import { gainVariance, withModelError } from '../../src/uncertainty/gainError.ts';
import { pairedDraws } from '../../src/uncertainty/pairedDraws.ts';
import type { Subject } from '../../src/uncertainty/responseSurface.ts';
import type { Responses } from '../../src/uncertainty/responses.ts';

const subject = (name: string, power: number): Subject => ({ name, power, responses: {}, missed: [] });

/** Changes that move power by so many percent at each of two speeds. */
function responses(moves: Readonly<Record<string, readonly [number, number]>>): Responses {
  const at = (speed: 0 | 1) => ({
    rpm: 4000 + 1000 * speed,
    baseline: subject('baseline', 100),
    candidates: Object.entries(moves).map(([name, move]) => subject(name, 100 + move[speed])),
  });
  const both = [at(0), at(1)];
  const candidates = Object.entries(moves).map(([name, [a, b]]) => subject(name, 100 + (a + b) / 2));
  return { baseline: subject('baseline', 100), candidates, bySpeed: both, complete: true, stuck: [] };
}

function drawn(moves: Readonly<Record<string, readonly [number, number]>>): readonly Float64Array[] {
  const { baseline, candidates } = withModelError(responses(moves));
  const known = candidates.filter((candidate) => candidate !== null);
  if (baseline === null || known.length < candidates.length) throw new Error('not measured');
  return pairedDraws(baseline, known, { seed: 3 }).gains;
}

const own = 100 * MODEL_ERRORS.sheets.gain;
const between = (one: Float64Array, other: Float64Array): number =>
  standardDeviation(one.map((gain, i) => gain - other[i]));

describe("the model's own error of a gain", () => {
  it('is half of a small move, what published gains were missed by of some percent, and a tenth of a large one', () => {
    expect(Math.sqrt(gainVariance(0.001))).toBeCloseTo(0.00051, 5);
    // 0.8 % (1 - exp(-1.5625))^(1/2) and 0.2 %: 2 % moved.
    expect(Math.sqrt(gainVariance(0.02))).toBeCloseTo(Math.hypot(0.00711, 0.002), 5);
    expect(Math.sqrt(gainVariance(0.3))).toBeCloseTo(Math.hypot(MODEL_ERRORS.sheets.gain, 0.03), 9);
    expect(gainVariance(0)).toBe(0);
  });

  it('comes to what the model misses of engines that have nothing in common where one makes some two thirds more', () => {
    const apart = Math.SQRT2 * MODEL_ERRORS.sheets.torque;
    expect(Math.sqrt(gainVariance(0.5))).toBeLessThan(apart);
    expect(Math.sqrt(gainVariance(0.8))).toBeGreaterThan(apart);
  });

  it('spreads a gain by what its change moves, also where that comes to nothing over the band', () => {
    const [still, tilts, large] = drawn({ still: [0, 0], tilts: [2, -2], large: [30, 30] });
    expect(standardDeviation(still)).toBeLessThan(0.01);
    expect(Math.abs(standardDeviation(tilts) / 0.739 - 1)).toBeLessThan(0.03);
    expect(Math.abs(standardDeviation(large) / Math.hypot(own, 3) - 1)).toBeLessThan(0.03);
  });

  it('cancels between changes that move alike, and not between those that do not', () => {
    const [one, like, other] = drawn({ one: [5, 5], like: [5.1, 5.1], other: [5, -5] });
    expect(Math.abs(between(one, like) / 0.051 - 1)).toBeLessThan(0.05);
    // Two that are far apart err by what each of them does alone: 10 % at one of two speeds.
    expect(Math.abs(between(one, other) / Math.hypot(own, 0.1 * Math.sqrt(50)) - 1)).toBeLessThan(0.04);
  });

  it('is the same whatever the order of the changes', () => {
    const [a, b] = drawn({ a: [2, 1], b: [1, 3] });
    const [second, first] = drawn({ b: [1, 3], a: [2, 1] });
    expect(first).toEqual(a);
    expect(second).toEqual(b);
  });
});
