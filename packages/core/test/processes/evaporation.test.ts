import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaporationCooling } from '../../src/processes/evaporation.ts';

describe('evaporationCooling(share, fuelPerAir, latentHeat)', () => {
  it('is share F L / (cp + F cf)', () => {
    // 0.5 x 0.08 x 350e3 / (1005 + 184) = 11.7746
    expect(evaporationCooling(0.5, 0.08, 350e3)).toBeCloseTo(11.7746, 4);
  });

  it('is about 19 K for all of stoichiometric iso-octane and 128 K for methanol (Heywood 1988, section 6.2, from memory)', () => {
    expect(Math.abs(evaporationCooling(1, 1 / 15.03, 308e3) - 19)).toBeLessThan(2);
    expect(Math.abs(evaporationCooling(1, 1 / 6.43, 1103e3) - 128)).toBeLessThan(5);
  });

  it('is nothing without fuel or evaporation, and grows with both', () => {
    expect(evaporationCooling(0, 0.08, 350e3)).toBe(0);
    expect(evaporationCooling(1, 0, 350e3)).toBe(0);
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.9, noNaN: true }),
        fc.double({ min: 0.01, max: 0.3, noNaN: true }),
        (share, f) => {
          expect(evaporationCooling(share + 0.1, f, 9e5)).toBeGreaterThan(evaporationCooling(share, f, 9e5));
          expect(evaporationCooling(share, f * 1.1, 9e5)).toBeGreaterThan(evaporationCooling(share, f, 9e5));
        },
      ),
    );
  });

  it('refuses what is not a number', () => {
    expect(() => evaporationCooling(Number.NaN, 0.08, 350e3)).toThrow('share must be in [0, 1], got NaN');
    expect(() => evaporationCooling(0.5, Number.NaN, 350e3)).toThrow('fuelPerAir');
    expect(() => evaporationCooling(0.5, 0.08, Number.NaN)).toThrow('latentHeat');
  });
});
