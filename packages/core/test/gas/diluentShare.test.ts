import { describe, expect, it } from 'vitest';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { diluentShare } from '../../src/gas/diluentShare.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';

const tablesOf = (vapourPressure: number) =>
  buildGasTables({ fuel: fuelNamed('iso-octane'), lambda: 1, pressure: 1e5, vapourPressure });

describe('diluentShare(tables, residual)', () => {
  it('is nothing in dry air with fuel, and all in burned gas', () => {
    const tables = tablesOf(0);
    expect(diluentShare(tables, 0)).toBeCloseTo(0, 12);
    expect(diluentShare(tables, 1)).toBe(1);
  });

  // Two of a hundred moles of air are water; a mole of fuel comes with 12.5 / 0.2095 moles of dry air: 2 / (100 + 98 / 59.67).
  it('counts water by the mole', () => {
    expect(diluentShare(tablesOf(2000), 0)).toBeCloseTo(2 / (100 + 98 / 59.67), 5);
  });

  // Burned at lambda 1: 1 + 59.67 moles become 8 + 9 + 47.17, so that a tenth by mass is more by the mole.
  it('counts burned gas by the mole', () => {
    const moles = (0.1 * 64.17) / (0.1 * 64.17 + 0.9 * 60.67);
    expect(diluentShare(tablesOf(0), 0.1)).toBeCloseTo(moles, 3);
  });
});
