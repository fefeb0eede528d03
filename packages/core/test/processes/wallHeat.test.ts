import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ANNAND_A,
  ANNAND_C,
  annand,
  hohenberg,
  MOTORED_EXPONENT,
  motoredPressure,
  WOSCHNI_C1_CLOSED,
  WOSCHNI_C1_GAS_EXCHANGE,
  WOSCHNI_C2,
  woschniOriginal,
  woschniVelocity,
} from '../../src/processes/wallHeat.ts';
import { woschniHeywood } from './woschniHeywood.ts';

describe('Woschni', () => {
  /** Worked independently: bore 0.1 m, 3000 kPa, 1500 K, 27.36 m/s. */
  it('is 790.2 W/(m2 K) in the kPa form and 914.8 in the original one', () => {
    expect(woschniHeywood(0.1, 3e6, 1500, 27.36)).toBeCloseTo(790.2, 1);
    expect(woschniOriginal(0.1, 3e6, 1500, 27.36)).toBeCloseTo(914.8, 1);
  });

  it('has the published factors of velocity', () => {
    expect([WOSCHNI_C1_GAS_EXCHANGE, WOSCHNI_C1_CLOSED, WOSCHNI_C2]).toEqual([6.18, 2.28, 3.24e-3]);
  });

  it('takes 2.28 piston speeds while compressing and the pressure excess while burning', () => {
    // 2.28 x 12 = 27.36; 3.24e-3 x 5e-4 m3 x 350 K / (1e5 Pa x 5.5e-4 m3) x 20e5 Pa = 20.618 m/s.
    expect(woschniVelocity(2.28, 12, 0, 5e-4, 350, 55, 20e5)).toBeCloseTo(27.36, 12);
    expect(woschniVelocity(2.28, 12, 3.24e-3, 5e-4, 350, 55, 20e5)).toBeCloseTo(27.36 + 20.61818, 4);
  });

  it('never counts a pressure below the motored one', () => {
    expect(woschniVelocity(2.28, 12, 3.24e-3, 5e-4, 350, 55, -1e5)).toBeCloseTo(27.36, 12);
  });

  it('rises with p to the 0.8 and falls with bore to the 0.2 in both forms', () => {
    for (const form of [woschniHeywood, woschniOriginal]) {
      expect(form(0.1, 4e6, 1500, 20) / form(0.1, 2e6, 1500, 20)).toBeCloseTo(2 ** 0.8, 12);
      expect(form(0.2, 2e6, 1500, 20) / form(0.1, 2e6, 1500, 20)).toBeCloseTo(2 ** -0.2, 12);
      expect(form(0.1, 2e6, 1500, 40) / form(0.1, 2e6, 1500, 20)).toBeCloseTo(2 ** 0.8, 12);
    }
  });
});

describe('motoredPressure', () => {
  it('is a polytrope through the reference', () => {
    expect(MOTORED_EXPONENT).toBe(1.32);
    expect(motoredPressure(1e5, 6e-4, 6e-4, 1.32)).toBe(1e5);
    // 10^1.3 = 19.9526
    expect(motoredPressure(1e5, 6e-4, 6e-5, 1.3)).toBeCloseTo(19.9526e5, -1);
  });
});

describe('hohenberg(V, p, T, pistonSpeed)', () => {
  /** Worked independently. */
  it('is 1466.29 W/(m2 K) at 100 cm3, 30 bar, 1500 K, 12 m/s', () => {
    expect(hohenberg(1e-4, 30e5, 1500, 12)).toBeCloseTo(1466.29, 2);
  });
  it('is 147.04 W/(m2 K) at 600 cm3, 1 bar, 400 K, 12 m/s', () => {
    expect(hohenberg(6e-4, 1e5, 400, 12)).toBeCloseTo(147.04, 2);
  });
});

describe('annand', () => {
  it('is a k / B Re^0.7 without radiation', () => {
    // Re = 5 x 12 x 0.1 / 6e-5 = 1e5; 1e5^0.7 = 3162.2777; 0.49 x 0.1 / 0.1 x that.
    expect(annand(0.1, 12, 5, 6e-5, 0.1, 2000, 450, 0.49, 0)).toBeCloseTo(1549.516, 3);
  });

  it('radiates 0.075 of a black body between gas and wall', () => {
    const without = annand(0.1, 12, 5, 6e-5, 0.1, 2000, 450, ANNAND_A, 0);
    const h = annand(0.1, 12, 5, 6e-5, 0.1, 2000, 450, ANNAND_A, ANNAND_C) - without;
    expect(h * 1550).toBeCloseTo(0.075 * 5.670374419e-8 * (2000 ** 4 - 450 ** 4), 4);
    // The published share of radiation in spark ignition is about a twentieth.
    expect(h / without).toBeLessThan(0.1);
  });

  it('has no hole where gas and wall are equally hot', () => {
    expect(annand(0.1, 12, 5, 6e-5, 0.1, 450, 450, 0.49, ANNAND_C)).toBeGreaterThan(0);
  });
});

describe('the three correlations together', () => {
  it('are positive, finite and within a factor of three of each other at full load', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 80, noNaN: true }),
        fc.double({ min: 1000, max: 2700, noNaN: true }),
        fc.double({ min: 6, max: 25, noNaN: true }),
        (bar, T, speed) => {
          const p = bar * 1e5;
          const mu = 3.3e-7 * T ** 0.7;
          const all = [
            woschniHeywood(0.1, p, T, 2.28 * speed + 10),
            hohenberg(1e-4, p, T, speed),
            annand(0.1, speed, p / (287 * T), mu, (mu * 1250) / 0.7, T, 450, ANNAND_A, ANNAND_C),
          ];
          for (const h of all) expect(h).toBeGreaterThan(0);
          expect(Math.max(...all) / Math.min(...all)).toBeLessThan(3);
        },
      ),
    );
  });
});
