import { describe, expect, it } from 'vitest';
import { unitSize as ofFile } from '../../src/base/unitsOfFile.ts';
import { unitSize as ofModules } from '../../src/base/unitsOfModules.ts';
import { unitSize as ofTable } from '../../src/base/unitsOfTable.ts';

/** Exact by definition, or of NIST SP 811 (2008), appendix B.8, to its seven digits; the sizes of inch of mercury and of water stand in units.test.ts. */
const SI: readonly (readonly [string, number])[] = [
  ['in', 0.0254],
  ['ft', 0.3048],
  ['yd', 0.9144],
  ['mil', 2.54e-5],
  ['in^3', 1.6387064e-5],
  ['gal', 3.785412e-3],
  ['lb', 0.45359237],
  ['oz', 2.834952e-2],
  ['h', 3600],
  ['lbf', 4.448222],
  ['kgf', 9.80665],
  ['psi', 6894.757],
  ['lbf/in^2', 6894.757],
  ['kgf/cm^2', 98066.5],
  ['atm', 101325],
  ['torr', 133.3224],
  ['mmHg', 133.3224],
  ['cmH2O', 98.0665],
  ['Btu', 1055.056],
  ['Btu/lb', 2326],
  ['hp', 745.6999],
  ['cfm', 4.719474e-4],
  ['ft^3/min', 4.719474e-4],
  ['ft/min', 5.08e-3],
  ['m^3/h', 2.777778e-4],
  ['in^2*ft', 1.966448e-4],
  ['rpm', 1 / 60],
];

/** The same units three times: for Node, for the bundled command, and for a page. */
const SOURCES = [
  ['mathjs in one file', ofFile],
  ['the units of mathjs alone', ofModules],
  ['the table', ofTable],
] as const;

/** Units as files may write them, each with what it is kept in. */
const PAIRS: readonly (readonly [string, string])[] = [
  ...['in', 'mm', 'cm', 'ft', 'm', 'um', 'yd', 'thou', 'micron'].map((unit) => [unit, 'm'] as const),
  ...['in^2', 'cm^2', 'mm^2'].map((unit) => [unit, 'm^2'] as const),
  ...['cc', 'in^3', 'l', 'ml', 'ft^3', 'gal'].map((unit) => [unit, 'm^3'] as const),
  ...'psi kPa hPa mbar bar mmHg atm torr inHg inH2O cmH2O mmH2O'
    .split(' ')
    .map((unit) => [unit, 'Pa'] as const),
  ...['cfm', 'l/s', 'm^3/h', 'm^3/min'].map((unit) => [unit, 'm^3/s'] as const),
  ...['degF', 'degC', 'degR'].map((unit) => [unit, 'K'] as const),
  ...['MJ/kg', 'kJ/kg', 'BTU/lb'].map((unit) => [unit, 'J/kg'] as const),
  ['rad', 'deg'],
  ['kgf', 'N'],
  ['hp', 'W'],
];

describe('sizes of units', () => {
  // mathjs has the British thermal unit and the horsepower to ten digits.
  it.each(PAIRS)('are alike in all sources: %s in %s', (unit, kept) => {
    const ratios = SOURCES.map(([, sizes]) => (sizes(unit)?.size ?? 0) / (sizes(kept)?.size ?? 0));
    const zeros = SOURCES.map(([, sizes]) => sizes(unit)?.zero);
    expect(Math.abs(ratios[1] / ratios[0] - 1)).toBeLessThan(1e-14);
    expect(Math.abs(ratios[2] / ratios[0] - 1)).toBeLessThan(1e-10);
    expect(zeros).toEqual([zeros[0], zeros[0], zeros[0]]);
  });
});

describe.each(SOURCES)('unitSize of %s', (_source, unitSize) => {
  it.each(SI)('of %s is %d in SI', (name, size) => {
    expect(Math.abs((unitSize(name)?.size ?? 0) / size - 1)).toBeLessThan(3e-7);
  });

  it('puts freezing and boiling of water at the same temperatures on every scale', () => {
    for (const [name, freezing, boiling] of [
      ['K', 273.15, 373.15],
      ['degC', 0, 100],
      ['degF', 32, 212],
      ['degR', 491.67, 671.67],
    ] as const) {
      const unit = unitSize(name);
      if (unit === null) throw new Error(name);
      expect((freezing + unit.zero) * unit.size).toBeCloseTo(273.15, 10);
      expect((boiling + unit.zero) * unit.size).toBeCloseTo(373.15, 10);
    }
  });

  it.each([
    ['millimetres', 'mm'],
    ['Inches', 'in'],
    ['feet', 'ft'],
    ['kilopascal', 'kPa'],
    ['hectopascals', 'hPa'],
    ['liters/second', 'l/s'],
    ['MM', 'mm'],
    ['IN', 'in'],
    ['PSI', 'psi'],
    ['KPA', 'kPa'],
    ['INHG', 'inHg'],
    ['CC', 'cm^3'],
    ['BAR', 'bar'],
    ['MJ/KG', 'MJ/kg'],
  ])('takes %s for %s', (written, usual) => {
    const [a, b] = [unitSize(written), unitSize(usual)];
    expect(a?.powers).toEqual(b?.powers);
    expect((a?.size ?? 0) / (b?.size ?? 1)).toBeCloseTo(1, 12);
  });

  it('tells prefixes apart by their case, and takes no side where neither was written', () => {
    expect((unitSize('MPa')?.size ?? 0) / (unitSize('mPa')?.size ?? 0)).toBeCloseTo(1e9, -2);
    expect(unitSize('MPA')).toBeNull();
  });

  it.each([
    '',
    'furrow',
    '/in',
    'in/',
    'in//s',
    'in^',
    'kin',
    'in-2',
    'constructor',
    'toString',
    'in^2^2',
    'm'.repeat(60),
  ])('knows no %s', (name) => expect(unitSize(name)).toBeNull());

  it('parts dimensions by their powers', () => {
    expect(unitSize('cfm')?.powers).toEqual(unitSize('m^3/s')?.powers);
    expect(unitSize('cfm')?.powers).not.toEqual(unitSize('m^3')?.powers);
    expect(unitSize('lbf*ft')?.powers).toEqual(unitSize('J')?.powers);
  });
});
