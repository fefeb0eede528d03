import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findRoot } from '../../src/numerics/root.ts';
import {
  burnWindow,
  shareBefore50,
  WIEBE_A,
  WIEBE_M,
  wiebeFractionNormalised,
  wiebeRateNormalised,
  wiebeShareNormalised,
} from '../../src/processes/wiebe.ts';
import { wiebeFraction, wiebeRate, wiebeShare } from './plainWiebe.ts';

describe('wiebeFraction(angle, start, duration, a, m)', () => {
  // Worked independently with SciPy 1.17.
  it('has burned half at 0.51755 of the duration for a = 5, m = 2', () => {
    expect(wiebeShare(0.5, 5, 2)).toBeCloseTo(0.51755, 5);
    expect(wiebeFraction(-10 + 40 * 0.51755, -10, 40, 5, 2)).toBeCloseTo(0.5, 5);
  });

  it.each([0.01, 0.1, 0.5, 0.9, 0.99])('is undone by the share of the duration at %f', (fraction) => {
    expect(wiebeFraction(-10 + 40 * wiebeShare(fraction, 5, 2), -10, 40, 5, 2)).toBeCloseTo(fraction, 14);
  });

  it('is 99.9 % at the end of the duration with the default a', () => {
    expect(wiebeFraction(1, 0, 1, WIEBE_A, WIEBE_M)).toBeCloseTo(0.999, 14);
    expect(WIEBE_M).toBe(2);
  });

  it('is zero up to the start and never falls', () => {
    expect(wiebeFraction(-10, -10, 40, 5, 2)).toBe(0);
    expect(wiebeFraction(-11, -10, 40, 5, 2)).toBe(0);
    fc.assert(
      fc.property(unit(), unit(), fc.double({ min: 0.5, max: 4, noNaN: true }), (u, v, m) => {
        const [first, second] = u < v ? [u, v] : [v, u];
        expect(wiebeFraction(second, 0, 0.8, 5, m)).toBeGreaterThanOrEqual(
          wiebeFraction(first, 0, 0.8, 5, m),
        );
        expect(wiebeFractionNormalised(second, 0, 0.8, 5, m)).toBeGreaterThanOrEqual(
          wiebeFractionNormalised(first, 0, 0.8, 5, m),
        );
      }),
    );
  });
});

describe('wiebeRate', () => {
  it.each([0.5, 1, 2, 3.2])('is the derivative of the fraction, m = %f', (m) => {
    for (const angle of [-9, -3, 4, 12, 29]) {
      const slope = (f: typeof wiebeFraction) =>
        (f(angle + 1e-4, -10, 40, 5, m) - f(angle - 1e-4, -10, 40, 5, m)) / 2e-4;
      expect(wiebeRate(angle, -10, 40, 5, m)).toBeCloseTo(slope(wiebeFraction), 8);
      expect(wiebeRateNormalised(angle, -10, 40, 5, m)).toBeCloseTo(slope(wiebeFractionNormalised), 8);
    }
  });

  it('is 15 exp(-5) per duration at the end for a = 5, m = 2', () => {
    expect(wiebeRate(1, 0, 1, 5, 2)).toBeCloseTo(15 * Math.exp(-5), 14);
  });

  it('is zero before the burn, and not cut off at its end', () => {
    expect(wiebeRateNormalised(-10.1, -10, 40, 5, 2)).toBe(0);
    // At the end itself as just before it: (a (m + 1) / duration) exp(-a) / (1 - exp(-a)).
    expect(wiebeRateNormalised(30, -10, 40, 5, 2)).toBeCloseTo(0.00254387, 8);
    expect(wiebeRate(-10.1, -10, 40, 5, 2)).toBe(0);
  });
});

describe('the normalised function', () => {
  it('ends at exactly one and stays there', () => {
    expect(wiebeFractionNormalised(30, -10, 40, 5, 2)).toBe(1);
    expect(wiebeFractionNormalised(30.4, -10, 40, 5, 2)).toBe(1);
    expect(wiebeFractionNormalised(300, -10, 40, 5, 2)).toBe(1);
    expect(wiebeFractionNormalised(30 - 1e-9, -10, 40, 5, 2)).toBeCloseTo(1, 9);
  });

  it('is undone by its share', () => {
    fc.assert(
      fc.property(unit(), fc.double({ min: 0.5, max: 10, noNaN: true }), (fraction, a) => {
        expect(wiebeFractionNormalised(wiebeShareNormalised(fraction, a, 2), 0, 1, a, 2)).toBeCloseTo(
          fraction,
          12,
        );
      }),
    );
  });
});

describe('burnWindow(ca50, span)', () => {
  it('puts 10, 50 and 90 % where they were asked for', () => {
    const { start, duration } = burnWindow(8, 28);
    const at = (angle: number) => wiebeFractionNormalised(angle, start, duration, WIEBE_A, WIEBE_M);
    expect(at(8)).toBeCloseTo(0.5, 13);
    const reaches = (fraction: number) => findRoot((x) => at(x) - fraction, start, start + duration).x;
    expect(reaches(0.9) - reaches(0.1)).toBeCloseTo(28, 10);
  });

  it('has 49 % of the span before the middle for m = 2', () => {
    // (0.51755 - 0.27621) / 0.49603 of the plain function; normalising with a = ln 1000 moves it by less than 0.003.
    expect(shareBefore50()).toBeCloseTo(0.4865, 2);
    expect(shareBefore50(30, 2)).toBeCloseTo((0.51755 - 0.27621) / 0.49603, 4);
  });

  it('refuses nonsense', () => {
    expect(() => burnWindow(Number.NaN, 28)).toThrow('ca50 must be finite, got NaN');
    expect(() => burnWindow(8, Number.NaN)).toThrow('span must be positive, got NaN');
    expect(() => burnWindow(8, 0)).toThrow('span must be positive, got 0');
    expect(() => burnWindow(8, -28)).toThrow('span must be positive, got -28');
    expect(() => burnWindow(8, Number.POSITIVE_INFINITY)).toThrow('span must be positive, got Infinity');
    expect(() => burnWindow(8, 28, 0)).toThrow('a must be');
    expect(() => burnWindow(8, 28, 5, -1)).toThrow('m must be');
    expect(() => wiebeShareNormalised(1.1, 5, 2)).toThrow('fraction');
  });
});

function unit(): fc.Arbitrary<number> {
  return fc.double({ min: 0, max: 1, noNaN: true });
}
