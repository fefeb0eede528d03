import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { criticalPressureRatio, isentropicFluxFunction } from '../../src/gas/isentropic.ts';

describe('isentropicFluxFunction(pressureRatio, gamma)', () => {
  // Computed independently from the closed form (SciPy 1.17).
  it('is 0.422581 at a pressure ratio of 0.9 in air', () => {
    expect(isentropicFluxFunction(0.9, 1.4)).toBeCloseTo(0.422581, 6);
  });

  it('chokes at 0.528282 in air and passes no more below', () => {
    expect(criticalPressureRatio(1.4)).toBeCloseTo(0.528282, 6);
    expect(isentropicFluxFunction(0.5, 1.4)).toBe(isentropicFluxFunction(0, 1.4));
  });

  it('passes 239.172 kg/(s m2) of air when choked from 101 325 Pa and 293.15 K', () => {
    const flux = (101_325 / Math.sqrt(287.055 * 293.15)) * isentropicFluxFunction(0, 1.4);
    // Half of the last printed digit, and half of the last digit of the gas constant.
    expect(Math.abs(flux - 239.172)).toBeLessThan(0.0005 + (239.172 * 0.0005) / 287.055 / 2);
  });

  it('follows the incompressible root law as the difference vanishes', () => {
    const difference = 1e-9;
    expect(isentropicFluxFunction(1 - difference, 1.4) / Math.sqrt(2 * difference)).toBeCloseTo(1, 6);
    expect(isentropicFluxFunction(1, 1.4)).toBe(0);
  });

  it('never falls as the downstream pressure falls', () => {
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(unit, unit, fc.double({ min: 1.1, max: 1.67, noNaN: true }), (a, b, gamma) => {
        const low = isentropicFluxFunction(Math.min(a, b), gamma);
        expect(low).toBeGreaterThanOrEqual(isentropicFluxFunction(Math.max(a, b), gamma));
      }),
    );
  });

  it('names the argument that is out of range', () => {
    expect(() => isentropicFluxFunction(1.01, 1.4)).toThrow('pressureRatio must be in [0, 1], got 1.01');
    expect(() => isentropicFluxFunction(Number.NaN, 1.4)).toThrow('pressureRatio must be in [0, 1], got NaN');
    expect(() => criticalPressureRatio(1)).toThrow('gamma must be above 1, got 1');
  });
});
