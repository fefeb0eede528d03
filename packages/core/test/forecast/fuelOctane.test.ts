import { beforeAll, describe, expect, it } from 'vitest';
import { fuelOctane, octaneShort } from '../../src/forecast/fuelOctane.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import type { GasTables } from '../../src/gas/gasTables.ts';

let tables: GasTables;
beforeAll(() => {
  tables = buildGasTables({ fuel: fuelNamed('pump-91'), lambda: 0.88, pressure: 1e5, vapourPressure: 0 });
});

const charge = (closingTemperature: number) => ({ closingPressure: 1e5, closingTemperature, residual: 0.04 });

describe('fuelOctane(fuel, tables, charge)', () => {
  it('counts the research number and more in cool charge, less in hot, by the sensitivity of the fuel', () => {
    const pump = fuelNamed('pump-91');
    const [cool, hot] = [330, 430].map((T) => fuelOctane(pump, tables, charge(T)));
    // 96 and 86, less the four numbers to knock that is just heard.
    expect(cool.here).toBeGreaterThan(96 - 4);
    expect(hot.here).toBeLessThan(96 - 4);
    expect(cool.pump).toBe(91);
  });

  it('is the same in any charge for a reference fuel', () => {
    const iso = fuelNamed('iso-octane');
    expect(fuelOctane(iso, tables, charge(330)).here).toBe(96);
    expect(fuelOctane(iso, tables, charge(430)).here).toBe(96);
  });

  it('leaves the number of the pump where a march was lost', () => {
    expect(fuelOctane(fuelNamed('pump-91'), tables, charge(Number.NaN)).here).toBe(91 - 4);
  });
});

describe('octaneShort(knock, fuel)', () => {
  // An integral of one asks for 100 in the gas of the standard engine, and for 3 % less in ten points more of burned gas.
  it('is what is asked for in this gas, less what the fuel is', () => {
    const fuel = { here: 90, pump: 91, diluent: 0.09 };
    expect(octaneShort(1, fuel)).toBeCloseTo(10, 12);
    expect(octaneShort(1, { ...fuel, diluent: 0.19 })).toBeCloseTo(100 / 1.0332 - 90, 2);
  });
});
