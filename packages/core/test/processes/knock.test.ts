import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  autoignitionDelay,
  dilutionGain,
  knockRate,
  motorMethodShare,
  octaneIndex,
  octaneRequired,
} from '../../src/processes/knock.ts';

const atm = 101_325;

describe('autoignitionDelay(p, T, octane)', () => {
  // Worked independently from the formula of Douaud and Eyzat.
  it('is 2.40505 ms at octane 87, 40 atm and 800 K', () => {
    expect(autoignitionDelay(40 * atm, 800, 87) * 1e3).toBeCloseTo(2.40505, 5);
  });
});

describe('knockRate(p, T)', () => {
  // 30^1.7 exp(-3800 / 850) / 17.68 ms, worked by hand.
  it('is 209.9 a second at 30 atm and 850 K', () => {
    expect(knockRate(30 * atm, 850)).toBeCloseTo(209.93, 2);
  });

  it('is the reciprocal of the delay at octane 100', () => {
    expect(knockRate(30 * atm, 850) * autoignitionDelay(30 * atm, 850, 100)).toBeCloseTo(1, 14);
  });
});

describe('octaneRequired(integral)', () => {
  it('is the octane number that makes the integral of a trace one', () => {
    // Gas squeezed from 15 to 45 atm in 4 ms; trapezoids.
    const n = 400;
    const trace = Array.from({ length: n + 1 }, (_, i) => ({
      p: (15 + (30 * i) / n) * atm,
      T: 700 + (200 * i) / n,
    }));
    const integrate = (rate: (p: number, T: number) => number) =>
      trace.reduce((sum, s, i) => sum + (i === 0 || i === n ? 0.5 : 1) * rate(s.p, s.T) * (4e-3 / n), 0);
    const integral = integrate(knockRate);
    const octane = octaneRequired(integral);
    expect(integrate((p, T) => 1 / autoignitionDelay(p, T, octane))).toBeCloseTo(1, 12);
    expect(octane).toBeGreaterThan(60);
    expect(octane).toBeLessThan(120);
  });

  it('is 100 for an integral of one and zero for none', () => {
    expect(octaneRequired(1)).toBe(100);
    expect(octaneRequired(0)).toBe(0);
  });

  it('undoes the scaling of the integral by octane', () => {
    fc.assert(
      fc.property(fc.double({ min: 60, max: 130, noNaN: true }), (octane) => {
        expect(octaneRequired((octane / 100) ** 3.402)).toBeCloseTo(octane, 10);
      }),
    );
  });

  it('rises by ln ON = (1.7 ln p - 3800 / T) / 3.402 with the state of the gas', () => {
    const required = (bar: number, T: number) => octaneRequired(knockRate(bar * 1e5, T) * 2e-3);
    expect(required(44, 820) / required(40, 820)).toBeCloseTo(1.1 ** (1.7 / 3.402), 12);
    expect(required(40, 830) / required(40, 820)).toBeCloseTo(
      Math.exp((3800 / 3.402) * (1 / 820 - 1 / 830)),
      12,
    );
  });

  it('refuses what is not a number', () => {
    expect(() => octaneRequired(Number.NaN)).toThrow('integral must be zero or positive, got NaN');
  });
});

describe('dilutionGain(diluent)', () => {
  it('is one in the gas of the standard engine, where octane numbers are defined', () => {
    expect(dilutionGain(0.09)).toBeCloseTo(1, 14);
    expect(octaneRequired(0.9, 0.09)).toBe(octaneRequired(0.9));
  });

  // 0.91 to 0.81 of gas that burns, by the power ln 1.03 / ln (1 / 0.9): worked by hand.
  it('counts ten points more of burned gas as 3.3 % more octane from there, and 3 % from none', () => {
    expect(dilutionGain(0.19)).toBeCloseTo(1.0332, 4);
    expect(dilutionGain(0.1) / dilutionGain(0)).toBeCloseTo(1.03, 12);
  });

  it('divides what an engine asks for', () => {
    expect(octaneRequired(1, 0.19)).toBeCloseTo(100 / 1.0332, 2);
  });

  it('stays beyond four tenths, which nobody measured, and refuses what is no share', () => {
    // (0.91 / 0.6) by the same power.
    expect(dilutionGain(0.4)).toBeCloseTo(1.124, 4);
    expect(dilutionGain(1)).toBe(dilutionGain(0.4));
    expect(() => dilutionGain(Number.NaN)).toThrow('diluent must be in [0, 1], got NaN');
    expect(() => dilutionGain(1.01)).toThrow('diluent');
    expect(() => dilutionGain(-0.01)).toThrow('diluent');
  });
});

describe('motorMethodShare(T)', () => {
  it('is 0 and 1 where the research and the motor method run the standard engine', () => {
    expect(motorMethodShare(739)).toBe(0);
    expect(motorMethodShare(855)).toBe(1);
    expect(motorMethodShare(797)).toBeCloseTo(0.5, 12);
  });

  it('is -0.336 in gas 60 K cooler than the research method has', () => {
    expect(motorMethodShare(679)).toBeCloseTo(-0.336, 12);
  });

  it('refuses what is no temperature', () => {
    expect(() => motorMethodShare(Number.NaN)).toThrow('T must be positive K');
  });
});

describe('octaneIndex(ron, mon)', () => {
  it('is the antiknock index by default', () => expect(octaneIndex(97, 87)).toBe(92));
  it('is the research number at share zero', () => expect(octaneIndex(97, 87, 0)).toBe(97));
  it('begins at zero, the number of heptane by both methods', () => expect(octaneIndex(0, 0)).toBe(0));
  it('refuses what is no octane number', () => {
    expect(() => octaneIndex(-1, 87)).toThrow('ron must be zero or positive');
    expect(() => octaneIndex(97, -1)).toThrow('mon must be zero or positive');
    expect(() => octaneIndex(Number.NaN, 87)).toThrow('ron');
    expect(() => octaneIndex(97, Number.NaN)).toThrow('mon');
    expect(() => octaneIndex(97, 87, Number.NaN)).toThrow('motorMethodShare');
  });
});
