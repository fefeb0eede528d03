import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  commonUnits,
  type Dimension,
  describeDimension,
  parseQuantity,
  toUnit,
} from '../../src/base/units.ts';

const DIMENSIONS: readonly Dimension[] = [
  'length',
  'area',
  'volume',
  'pressure',
  'flow',
  'angle',
  'temperature',
  'temperature-difference',
  'speed',
  'speed-rate',
  'inertia',
  'share',
  'specific-energy',
];

/** Exact by definition, or the conventional values of NIST SP 811 (2008), appendix B.8. */
const KNOWN: readonly (readonly [string, Dimension, number])[] = [
  ['4.155 in', 'length', 0.105537],
  ['40 thou', 'length', 0.001016],
  ['1-3/4 in', 'length', 0.04445],
  ['1 5/8 in', 'length', 0.041275],
  ['3/8 in', 'length', 0.009525],
  ['2 "', 'length', 0.0508],
  ['86mm', 'length', 0.086],
  ['1 ft', 'length', 0.3048],
  ['2.10 in2', 'area', 0.001354836],
  ['2.10 sq in', 'area', 0.001354836],
  ['12 cm2', 'area', 0.0012],
  ['68 cc', 'volume', 6.8e-5],
  ['62 ccm', 'volume', 6.2e-5],
  ['350 ci', 'volume', 5.735472e-3],
  ['2.0 l', 'volume', 0.002],
  ['1.5 inHg', 'pressure', 5079.5835],
  ['28 inH2O', 'pressure', 6974.48948],
  ['29.92 inHg', 'pressure', 101320.75888],
  ['1013.25 hPa', 'pressure', 101325],
  ['14.7 psi', 'pressure', 101352.93],
  ['850 cfm', 'flow', 0.4011553267],
  ['224 deg', 'angle', 224],
  ['60 degF', 'temperature', 288.7055556],
  ['15.6 degC', 'temperature', 288.75],
  ['0 °C', 'temperature', 273.15],
  ['300 K', 'temperature', 300],
  ['27 degF', 'temperature-difference', 15],
  ['15 K', 'temperature-difference', 15],
  ['27 Fahrenheit', 'temperature-difference', 15],
  ['5500 rpm', 'speed', 5500],
  ['300 rpm/s', 'speed-rate', 300],
  ['600 RPM/sec', 'speed-rate', 600],
  ['0.28 kg m2', 'inertia', 0.28],
  ['0.28 kg·m²', 'inertia', 0.28],
  // One pound by one foot squared: 0.45359237 kg x (0.3048 m)^2.
  ['1 lb-ft2', 'inertia', 0.0421401101],
  ['1000 lb in²', 'inertia', 0.292639653],
  ['12 %', 'share', 0.12],
  ['43.5 MJ/kg', 'specific-energy', 43.5e6],
  ['350 kJ/kg', 'specific-energy', 350e3],
];

const BAD: readonly (readonly [string, Dimension, string])[] = [
  ['4.155', 'length', 'unit-missing'],
  ['4 kg', 'length', 'unit-mismatch'],
  ['4 inn', 'length', 'unit-unknown'],
  ['4,155 in', 'length', 'decimal-comma'],
  ['1e999 in', 'length', 'not-finite'],
  ['1e307 km', 'length', 'not-finite'],
  ['four in', 'length', 'not-a-quantity'],
  ['', 'length', 'not-a-quantity'],
  ['.inf in', 'length', 'not-a-quantity'],
  ['NaN in', 'length', 'not-a-quantity'],
  ['4 in; drop', 'length', 'unit-unknown'],
  ['4 in^999', 'length', 'unit-mismatch'],
  ['4 constructor', 'length', 'unit-unknown'],
  ['4 __proto__', 'length', 'unit-unknown'],
  ['12 %', 'length', 'unit-mismatch'],
  ['12 in', 'share', 'unit-mismatch'],
  ['28 inHg', 'flow', 'unit-mismatch'],
  ['15 kg', 'temperature-difference', 'unit-mismatch'],
  [`${'9'.repeat(80)} in`, 'length', 'not-a-quantity'],
];

describe('parseQuantity', () => {
  it.each(KNOWN)('reads %s as a %s', (text, dimension, expected) => {
    const result = parseQuantity(text, dimension);
    expect(result.ok && Math.abs(result.value.kept / expected - 1)).toBeLessThan(1e-6);
  });

  it.each(BAD)('refuses %s as a %s: %s', (text, dimension, code) => {
    const result = parseQuantity(text, dimension);
    expect(result.ok ? 'accepted' : result.problems[0].code).toBe(code);
  });

  it('asks of inches of pressure of what they are', () => {
    const result = parseQuantity('28 in', 'pressure');
    expect(result.ok ? '' : result.problems[0].hint).toContain('inches of water are inH2O');
  });

  it('gives a number or a problem for any text, and never throws', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), fc.constantFrom(...DIMENSIONS), (text, dimension) => {
        const result = parseQuantity(text, dimension);
        expect(result.ok ? Number.isFinite(result.value.kept) : result.problems[0].message.length > 0).toBe(
          true,
        );
      }),
    );
  });
});

describe('toUnit', () => {
  it('gives back the number that was written, in every unit on offer', () => {
    const cases = DIMENSIONS.flatMap((dimension) =>
      commonUnits(dimension).map((unit) => ({ dimension, unit })),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...cases),
        fc.integer({ min: 1, max: 1_000_000 }).map((n) => n / 1000),
        ({ dimension, unit }, number) => {
          const result = parseQuantity(`${number} ${unit}`, dimension);
          if (!result.ok) throw new Error(result.problems[0].message);
          expect(Math.abs(toUnit(result.value.kept, unit, dimension) - number)).toBeLessThan(
            1e-9 * (number + 500),
          );
        },
      ),
    );
  });

  it('leaves a pure number alone', () => {
    expect(toUnit(10.5, '', 'share')).toBe(10.5);
  });

  it.each([
    ['banana', 'length'],
    ['cfm', 'length'],
    ['psi', 'temperature-difference'],
  ] as const)('refuses %s for a %s, and says what there is', (unit, dimension) =>
    expect(() => toUnit(1, unit, dimension)).toThrow(
      `unit must be one of ${commonUnits(dimension).join(', ')}, got ${unit}`,
    ),
  );
});

describe('describeDimension', () => {
  it('asks for a unit by example', () => {
    expect(describeDimension('length')).toBe('a length with its unit');
  });
});
