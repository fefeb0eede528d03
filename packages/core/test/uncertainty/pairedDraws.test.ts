import { describe, expect, it } from 'vitest';
import { standardDeviation } from '../../src/numerics/standardDeviation.ts';
import { chanceToBeat, shareAbove } from '../../src/uncertainty/drawFigures.ts';
import { pairedDraws } from '../../src/uncertainty/pairedDraws.ts';
import type { Response, Subject } from '../../src/uncertainty/responseSurface.ts';
import { varianceShares } from '../../src/uncertainty/varianceShares.ts';

const subject = (
  name: string,
  power: number,
  linear: Record<string, number>,
  more: { curved?: Record<string, number>; missed?: readonly number[] } = {},
): Subject => ({
  name,
  power,
  responses: Object.fromEntries(
    Object.entries(linear).map(([id, slope]): [string, Response] => [
      id,
      { linear: slope, curved: more.curved?.[id] ?? 0 },
    ]),
  ),
  missed: more.missed ?? [],
});

/** Scatter of a standard deviation read from so many draws, four of its own standard errors [-]. */
const scatter = (draws: number): number => 4 / Math.sqrt(2 * draws);

describe('pairedDraws(baseline, candidates, options)', () => {
  it('cancels what moves baseline and candidate alike', () => {
    const base = subject('baseline', 100, { heat: 0.03, friction: 0.02 });
    const same = subject('more', 104, { heat: 0.03, friction: 0.02 });
    const { baseline, gains } = pairedDraws(base, [same], { seed: 1 });
    // Absolute: the root of the sum of squares. Difference: nothing.
    expect(standardDeviation(baseline)).toBeGreaterThan(Math.hypot(0.03, 0.02) * (1 - scatter(6000)));
    expect(standardDeviation(baseline)).toBeLessThan(Math.hypot(0.03, 0.02) * (1 + scatter(6000)));
    expect(standardDeviation(gains[0])).toBeLessThan(1e-9);
    expect(gains[0][0]).toBeCloseTo(4, 9);
  });

  it('adds in squares what moves one of them alone', () => {
    const base = subject('baseline', 100, { 'old part': 0.006 });
    const other = subject('new', 103, { 'new part': 0.008 });
    const { gains } = pairedDraws(base, [other], { seed: 1, draws: 40_000 });
    const expected = 103 * Math.hypot(0.006, 0.008);
    expect(Math.abs(standardDeviation(gains[0]) / expected - 1)).toBeLessThan(scatter(40_000));
  });

  it('has the variance of a square where a response is curved: twice the square of its curvature', () => {
    const base = subject('baseline', 100, {});
    const curved = subject('curved', 100, { lash: 0.003 }, { curved: { lash: 0.004 } });
    const { gains } = pairedDraws(base, [curved], { seed: 2, draws: 40_000 });
    const expected = 100 * Math.sqrt(0.003 ** 2 + 2 * 0.004 ** 2);
    expect(Math.abs(standardDeviation(gains[0]) / expected - 1)).toBeLessThan(2 * scatter(40_000));
  });

  it('takes cycles that never repeat for what they are: noise of each engine, and no unknown', () => {
    const base = { ...subject('baseline', 100, {}), scatter: 0.003 };
    const other = { ...subject('new', 104, {}), scatter: 0.004 };
    const { baseline, gains } = pairedDraws(base, [other], { seed: 1, draws: 40_000 });
    expect(Math.abs(standardDeviation(baseline) / 0.003 - 1)).toBeLessThan(scatter(40_000));
    expect(Math.abs(standardDeviation(gains[0]) / (104 * 0.005) - 1)).toBeLessThan(scatter(40_000));
  });

  it('leaves the scatter of cycles a part of the variance that no unknown explains', () => {
    // 1.04 x 0.005 from an unknown of the candidate, and as much again from the cycles of both.
    const base = { ...subject('baseline', 100, {}), scatter: 0.003 };
    const other = { ...subject('new', 104, { part: 0.005 }), scatter: 0.004 };
    expect(varianceShares(base, other).unknowns[0].share).toBeCloseTo(0.5, 12);
  });

  it("leaves the model's own error a part of the variance that no unknown explains, and says which", () => {
    // 0.3 % from an unknown of the candidate, and 0.24 and 0.32 % from errors of the model: 0.09 and 0.16 %^2.
    const base = subject('baseline', 100, {});
    const other = { ...subject('new', 100, { part: 0.003 }), modelError: { new: 0.0024, old: 0.0032 } };
    const { unknowns, model } = varianceShares(base, other);
    expect(unknowns[0].share).toBeCloseTo(0.36, 12);
    expect(model).toBeCloseTo(0.64, 12);
    const { gains } = pairedDraws(base, [other], { seed: 1 });
    expect(Math.abs(standardDeviation(gains[0]) / 0.5 - 1)).toBeLessThan(scatter(6000));
  });

  it('counts what draws of everything missed, and cancels of it what two candidates have in common', () => {
    const base = subject('baseline', 100, {});
    const missed = [
      [0.008, 0.006, 0],
      [0.008, 0.006, 0],
      [0.008, 0, 0.006],
    ];
    const [a, twin, other] = missed.map((draws, i) => subject(`part ${i}`, 101, {}, { missed: draws }));
    const { gains } = pairedDraws(base, [a, twin, other], { seed: 1 });
    expect(Math.abs(standardDeviation(gains[0]) - 1)).toBeLessThan(scatter(6000));
    const apart = (one: number, two: number): number =>
      standardDeviation(gains[one].map((gain, i) => gain - gains[two][i]));
    expect(apart(0, 1)).toBe(0);
    // 0.6 % that only one has, and 0.6 % that only the other has.
    expect(Math.abs(apart(0, 2) / (0.6 * Math.SQRT2) - 1)).toBeLessThan(scatter(6000));
  });

  it('holds an unknown where it can go no further', () => {
    // Half of the draws are no loss at all: max(0, z) has mean 1 / sqrt(2 pi) and variance 1/2 - 1 / (2 pi).
    const base = subject('baseline', 100, {});
    const other: Subject = {
      ...subject('other', 100, {}),
      responses: { loss: { linear: 0.01, curved: 0, reach: [0, 10] } },
    };
    const { gains } = pairedDraws(base, [other], { seed: 1, draws: 40_000 });
    const deviation = Math.sqrt(0.5 - 1 / (2 * Math.PI));
    expect(Math.abs(standardDeviation(gains[0]) / deviation - 1)).toBeLessThan(2 * scatter(40_000));
    const mean = gains[0].reduce((sum, gain) => sum + gain, 0) / gains[0].length;
    expect(Math.abs(mean * Math.sqrt(2 * Math.PI) - 1)).toBeLessThan(2 * scatter(40_000));
    expect(varianceShares(base, other).unknowns[0].sigma).toBeCloseTo(deviation, 3);
  });

  it('draws what a calibration left correlated together', () => {
    const base = subject('baseline', 100, { friction: 0.02, heat: 0.02 });
    const correlation = [
      [1, -0.9],
      [-0.9, 1],
    ];
    const correlated = { ids: ['friction', 'heat'], correlation };
    const { baseline } = pairedDraws(base, [], { seed: 1, correlated });
    // Var(x + y) = 2 (1 + r) sigma^2.
    const expected = 0.02 * Math.sqrt(2 * (1 - 0.9));
    expect(Math.abs(standardDeviation(baseline) / expected - 1)).toBeLessThan(scatter(6000));
  });

  it('gives the same draws whatever the order of unknowns and candidates, and others for another seed', () => {
    const base = subject('baseline', 100, { a: 0.01, b: 0.02 });
    const turned = subject('baseline', 100, { b: 0.02, a: 0.01 });
    const one = subject('one', 101, { a: 0.015, b: 0.02 }, { missed: [0.002] });
    const two = subject('two', 102, { c: 0.01 });
    const there = pairedDraws(base, [one, two], { seed: 5 });
    const back = pairedDraws(turned, [two, one], { seed: 5 });
    expect(back.gains).toEqual([...there.gains].reverse());
    expect(pairedDraws(base, [one, two], { seed: 6 }).gains).not.toEqual(there.gains);
  });
});

describe('figures of draws', () => {
  it('are counted: chances as shares, a tie as half', () => {
    const values = Float64Array.of(-1, 0, 1, 2);
    expect(shareAbove(values, 0)).toBe(0.5);
    expect(chanceToBeat(values, Float64Array.of(-2, 0, 2, 2))).toBe(0.5);
    expect(standardDeviation(Float64Array.of(1, 2, 3))).toBe(1);
  });

  it('name the unknown that brings most of a variance, and how much one standard deviation of it does', () => {
    const base = subject('baseline', 100, { heat: 0.03, rating: 0.001 });
    const other = subject('new', 100, { heat: 0.031, rating: 0.004 });
    const { unknowns: shares } = varianceShares(base, other);
    expect(shares.map(({ id }) => id)).toEqual(['rating', 'heat']);
    expect(shares[0].share).toBeCloseTo(9 / 10, 9);
    expect(shares[0].perSigma).toBeCloseTo(0.3, 9);
  });
});
