import { beforeAll, describe, expect, it } from 'vitest';
import type { UnitClass } from '../../src/base/unitClass.ts';
import { newUnitClass as ofFile } from '../../src/base/unitsOfFile.ts';
import { newUnitClass as ofModules } from '../../src/base/unitsOfModules.ts';

const TRADE = { thou: '0.001 in', cfm: '1 ft^3/min', inHg: '3386.389 Pa', rpm: '1 / min' };

/** Units as files may write them, each with what it is kept in. */
const PAIRS: readonly (readonly [string, string])[] = [
  ...['in', 'mm', 'cm', 'ft', 'm', 'um', 'yd', 'thou'].map((unit) => [unit, 'm'] as const),
  ...['in^2', 'cm^2', 'mm^2'].map((unit) => [unit, 'm^2'] as const),
  ...['cc', 'in^3', 'l', 'ml', 'm^3', 'ft^3'].map((unit) => [unit, 'm^3'] as const),
  ...['psi', 'kPa', 'hPa', 'mbar', 'bar', 'mmHg', 'Pa', 'atm', 'inHg'].map((unit) => [unit, 'Pa'] as const),
  ...['cfm', 'l/s', 'm^3/h', 'm^3/min', 'cm^3*in/(ft*s)'].map((unit) => [unit, 'm^3/s'] as const),
  ...['degF', 'degC', 'K'].map((unit) => [unit, 'K'] as const),
  ...['deg', 'rad'].map((unit) => [unit, 'deg'] as const),
  ...['MJ/kg', 'kJ/kg', 'BTU/lbm'].map((unit) => [unit, 'J/kg'] as const),
  ['rpm', 'rpm'],
];

let both: readonly UnitClass[] = [];

beforeAll(() => {
  both = [ofFile(), ofModules()];
  for (const Unit of both) Unit.createUnit(TRADE);
});

describe('the units of mathjs, from one file and from modules', () => {
  it.each(PAIRS)('are the same from %s to %s and back, to 1e-14', (unit, kept) => {
    for (const value of [-41, 0.3, 1, 98.7, 1e6])
      for (const [from, to] of [
        [unit, kept],
        [kept, unit],
      ]) {
        const [file, modules] = both.map((Unit) => new Unit(value, from).toNumber(to));
        expect(Math.abs(modules / file - 1), `${value} ${from} in ${to}`).toBeLessThan(1e-14);
      }
  });

  it('put 212 degrees of Fahrenheit at 373.15 K', () => {
    for (const Unit of both) expect(new Unit(212, 'degF').toNumber('K')).toBeCloseTo(373.15, 12);
  });

  it('tell dimensions apart, and refuse what is no unit', () => {
    for (const Unit of both) {
      expect(new Unit(1, 'cfm').equalBase(new Unit(1, 'm^3/s'))).toBe(true);
      expect(new Unit(1, 'cfm').equalBase(new Unit(1, 'm^3'))).toBe(false);
      expect(() => new Unit(1, 'furrow')).toThrow();
    }
  });

  it('keep added units to themselves', () => {
    for (const Unit of both) expect(new Unit(1, 'thou').toNumber('m')).toBeCloseTo(2.54e-5, 18);
    expect(() => new (ofModules())(1, 'thou')).toThrow();
    expect(() => new (ofFile())(1, 'inHg')).toThrow();
  });
});
