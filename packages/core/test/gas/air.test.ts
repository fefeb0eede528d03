import { describe, expect, it } from 'vitest';
import { DRY_AIR, humidAir, saturationPressure, vapourPressureOf } from '../../src/gas/air.ts';
import { mixtureCp } from './mixtureCp.ts';

const INHG = 3386.389;

describe('dry air', () => {
  it('sums to one and weighs 28.9644 g/mol like ISO 2533', () => {
    expect(DRY_AIR.reduce((sum, part) => sum + part.moles, 0)).toBeCloseTo(1, 12);
    expect(Math.abs(humidAir(101_325, 0).molarMass * 1000 - 28.9644)).toBeLessThan(0.0015);
  });

  it('has R = 287.05 and, at 300 K, cp = 1004.9 J/(kg K)', () => {
    expect(Math.abs(humidAir(101_325, 0).R - 287.053)).toBeLessThan(0.02);
    // Keenan, Chao and Kaye, Gas Tables (1980): cp of air 1.0049 kJ/(kg K) at 300 K; value from memory.
    expect(Math.abs(mixtureCp(humidAir(101_325, 0), 300) - 1004.9)).toBeLessThan(0.6);
  });
});

describe('humidAir(pressure, vapourPressure)', () => {
  it('is lighter than dry air by 0.378 pv/p', () => {
    const dry = humidAir(1e5, 0);
    const humid = humidAir(1e5, 2000);
    expect(humid.molarMass / dry.molarMass).toBeCloseTo(1 - 0.378 * 0.02, 5);
  });

  it('names the argument out of range', () => {
    expect(() => humidAir(Number.NaN, 0)).toThrow('pressure must be positive Pa, got NaN');
    expect(() => humidAir(1e5, 1e5)).toThrow(
      'vapourPressure must be in [0, pressure = 100000) Pa, got 100000',
    );
    expect(() => humidAir(1e5, -1)).toThrow('vapourPressure must be');
  });
});

describe('saturationPressure(T)', () => {
  it.each([
    // Steam tables (IAPWS-IF97), values from memory to 0.1 %; the first is the triple point.
    { celsius: 0.01, pascal: 611.7 },
    { celsius: 10, pascal: 1228.2 },
    { celsius: 20, pascal: 2339.3 },
    { celsius: 25, pascal: 3169.9 },
    { celsius: 30, pascal: 4247 },
    { celsius: 40, pascal: 7385 },
    { celsius: 50, pascal: 12352 },
  ])('is $pascal Pa at $celsius degC', ({ celsius, pascal }) =>
    expect(Math.abs(saturationPressure(celsius + 273.15) / pascal - 1)).toBeLessThan(0.0015),
  );

  it('is 0.4 % more in moist air at 1 bar', () =>
    expect(saturationPressure(293.15, 1e5) / saturationPressure(293.15)).toBeCloseTo(1.00416, 5));

  it('gives the correction factors of a worked dyno example, 85 F, 85 %, 28.85 inHg: 1.1011', () => {
    // SAE J607 form, (29.92 / dry inHg) sqrt((T + 460) / 520); 1.10113 and 0.99427 were computed elsewhere from Buck's formula.
    const dry = 28.85 - vapourPressureOf(0.85, (85 - 32) / 1.8 + 273.15) / INHG;
    expect((29.92 / dry) * Math.sqrt(545 / 520)).toBeCloseTo(1.10113, 4);
    const dryCold = 30.1 - vapourPressureOf(0.35, (55 - 32) / 1.8 + 273.15) / INHG;
    expect((29.92 / dryCold) * Math.sqrt(515 / 520)).toBeCloseTo(0.99427, 4);
  });

  it('names the argument out of range', () => {
    expect(() => saturationPressure(25)).toThrow('T must be in [233, 333] K, got 25');
    expect(() => saturationPressure(300, -1)).toThrow('pressure must be zero or positive Pa');
    expect(() => vapourPressureOf(85, 300)).toThrow('relativeHumidity must be in [0, 1], got 85');
  });
});
