import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MIXTURE_SCATTER, scatterShare } from '../../src/processes/mixtureScatter.ts';

describe('scatterShare(phi, scatter)', () => {
  it('is 1 - scatter / sqrt(2 pi) at the stoichiometric mixture', () => {
    expect(scatterShare(1, 0.07)).toBeCloseTo(1 - 0.07 * 0.3989422804, 9);
    expect(scatterShare(1, 0.05)).toBeCloseTo(0.98005289, 8);
  });

  it.each([0.85, 0.97, 1.03, 1.1, 1.15])(
    'is the mean of min(phi, 1) over a normal scatter, phi %f',
    (phi) => {
      const scatter = 0.06;
      const n = 20_000;
      let sum = 0;
      let weights = 0;
      for (let i = 0; i <= n; i++) {
        const x = -8 + (16 * i) / n;
        const weight = Math.exp((-x * x) / 2);
        sum += weight * Math.min(phi + scatter * x, 1);
        weights += weight;
      }
      expect(scatterShare(phi, scatter)).toBeCloseTo(sum / weights / Math.min(phi, 1), 6);
    },
  );

  it('leaves as much oxygen in the exhaust of a stoichiometric engine as is found there: 0.5 to 0.7 %', () => {
    const left = 0.2095 * (1 - scatterShare(1));
    expect(left).toBeGreaterThan(0.005);
    expect(left).toBeLessThan(0.007);
  });

  it('costs next to nothing at the mixture of best power and is never above one', () => {
    expect(scatterShare(1 / 0.87, MIXTURE_SCATTER)).toBeGreaterThan(0.999);
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 2, noNaN: true }), (phi) => {
        expect(scatterShare(phi)).toBeLessThanOrEqual(1);
        expect(scatterShare(phi)).toBeGreaterThan(0.9);
      }),
    );
  });

  it('is one without scatter, and refuses nonsense', () => {
    expect(scatterShare(1, 0)).toBe(1);
    expect(() => scatterShare(Number.NaN)).toThrow('phi must be positive');
    expect(() => scatterShare(1, 0.6)).toThrow('scatter must be');
  });
});
