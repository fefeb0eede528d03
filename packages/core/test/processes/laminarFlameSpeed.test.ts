import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diluentFactor, type FlameFuel, laminarFlameSpeed } from '../../src/processes/laminarFlameSpeed.ts';

const atm = 101_325;
const fuels: readonly FlameFuel[] = ['gasoline', 'iso-octane', 'methanol', 'propane', 'ethanol'];

describe('laminarFlameSpeed(fuel, phi, T, p, diluent)', () => {
  it.each([
    ['gasoline', 1.21, 298, 0.305],
    ['iso-octane', 1.13, 298, 0.263],
    ['methanol', 1.11, 298, 0.369],
    ['propane', 1.08, 298, 0.342],
    ['ethanol', 1.075, 300, 0.465 * 1.075 ** 0.25],
  ] as const)(
    'has its documented value at its reference: %s at phi %f, %f K, 1 atm',
    (fuel, phi, T, expected) => {
      expect(laminarFlameSpeed(fuel, phi, T, atm, 0)).toBeCloseTo(expected, 12);
    },
  );

  it('puts ethanol between iso-octane and methanol at engine conditions', () => {
    const at = (fuel: FlameFuel) => laminarFlameSpeed(fuel, 1.1, 700, 20 * atm, 0.08);
    expect(at('ethanol')).toBeGreaterThan(at('iso-octane'));
    expect(at('ethanol')).toBeLessThan(at('methanol'));
  });

  it.each(fuels)('is positive and smooth over phi far outside the measured range: %s', (fuel) => {
    const h = 1e-3;
    let before = Number.NaN;
    for (let phi = 0.2; phi < 3; phi += h) {
      const s = laminarFlameSpeed(fuel, phi, 650, 15 * atm, 0.05);
      expect(s).toBeGreaterThan(0);
      const slope = (laminarFlameSpeed(fuel, phi + h, 650, 15 * atm, 0.05) - s) / h;
      // A jump of the value or a corner would show as a jump of the slope much larger than its curvature times h.
      // Ethanol's pressure exponent, as published, has a corner at phi = 1.
      const published = fuel === 'ethanol' && Math.abs(phi - 1) < 2 * h;
      if (!Number.isNaN(before)) expect(Math.abs(slope - before)).toBeLessThan(published ? 0.5 : 0.05);
      before = slope;
    }
  });

  it.each(fuels)('rises with temperature and falls with pressure and diluent: %s', (fuel) => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.7, max: 1.35, noNaN: true }),
        fc.double({ min: 300, max: 900, noNaN: true }),
        fc.double({ min: 1, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (phi, T, bar, x) => {
          const s = laminarFlameSpeed(fuel, phi, T, bar * 1e5, x);
          expect(laminarFlameSpeed(fuel, phi, T + 5, bar * 1e5, x)).toBeGreaterThan(s);
          expect(laminarFlameSpeed(fuel, phi, T, bar * 1.1e5, x)).toBeLessThan(s);
          expect(laminarFlameSpeed(fuel, phi, T, bar * 1e5, x + 0.05)).toBeLessThan(s);
        },
      ),
    );
  });

  it('names what it was not made for', () => {
    expect(() => laminarFlameSpeed('gasoline', Number.NaN, 700, atm, 0)).toThrow('phi must be positive');
    expect(() => laminarFlameSpeed('gasoline', 1, Number.NaN, atm, 0)).toThrow(
      'T must be positive K, got NaN',
    );
    expect(() => laminarFlameSpeed('gasoline', 1, 700, Number.NaN, 0)).toThrow(
      'p must be positive Pa, got NaN',
    );
    expect(() => laminarFlameSpeed('gasoline', 1, 700, atm, Number.NaN)).toThrow('diluent must be in [0, 1]');
  });
});

describe('diluentFactor(x)', () => {
  it('is 1 - 2.06 x^0.77 where measured', () => {
    expect(diluentFactor(0)).toBe(1);
    expect(diluentFactor(0.1)).toBeCloseTo(1 - 2.06 * 10 ** -0.77, 14);
    expect(diluentFactor(0.08)).toBeCloseTo(0.7054, 4);
  });

  it('tends to zero without reaching it', () => {
    expect(diluentFactor(0.39)).toBeGreaterThan(0.05);
    expect(diluentFactor(1)).toBeGreaterThan(0);
    expect(diluentFactor(1)).toBeLessThan(0.001);
  });

  it('is smooth where the continuation begins', () => {
    const x = (0.8 / 2.06) ** (1 / 0.77);
    const below = (diluentFactor(x) - diluentFactor(x - 1e-6)) / 1e-6;
    const above = (diluentFactor(x + 1e-6) - diluentFactor(x)) / 1e-6;
    expect(above / below).toBeCloseTo(1, 4);
  });
});
