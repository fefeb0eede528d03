import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { criticalPressureRatio, isentropicFluxFunction } from '../../src/base/isentropic.ts';

describe('isentropicFluxFunction(pressureRatio, gamma)', () => {
  // Computed independently from the closed form (SciPy 1.17).
  it.each([
    [0.99, 0.140662],
    [0.95, 0.307641],
    [0.9, 0.422581],
    [0.8, 0.560661],
    [0.7, 0.638317],
    [0.6, 0.676915],
  ])('at a pressure ratio of %f in air is %f', (ratio, psi) => {
    expect(isentropicFluxFunction(ratio, 1.4)).toBeCloseTo(psi, 6);
  });

  it.each([
    [1.4, 0.528282, 0.684731, 0.578704],
    [1.35, 0.536851, 0.676145, 0.581933],
    [1.3, 0.545728, 0.667262, 0.585228],
    [1.25, 0.554929, 0.658065, 0.588591],
  ])('chokes for gamma %f at %f with %f', (gamma, critical, choked, overRootGamma) => {
    expect(criticalPressureRatio(gamma)).toBeCloseTo(critical, 6);
    expect(isentropicFluxFunction(0, gamma)).toBeCloseTo(choked, 6);
    expect(isentropicFluxFunction(0, gamma) / Math.sqrt(gamma)).toBeCloseTo(overRootGamma, 6);
    expect(isentropicFluxFunction(critical * 0.9, gamma)).toBe(isentropicFluxFunction(0, gamma));
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
