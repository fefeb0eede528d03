import { describe, expect, it } from 'vitest';
import reference from '../data/flame-temperatures.json' with { type: 'json' };
import { constantPressureFlame, constantVolumeFlame } from './flames.ts';
import { ATMOSPHERE } from './gasReference.ts';

describe('adiabatic flame temperature against Cantera 3.2.0', () => {
  it.each(reference.fuelsAtStoichiometricMixture.rows)('$fuel: pressure ratio at constant volume', (row) => {
    const closed = constantVolumeFlame(row.fuel, 1, 298.15, ATMOSPHERE);
    expect(Math.abs(closed.pressureRatio - row.pressureRatio)).toBeLessThan(0.001);
  });

  it('is moved by less than 1 K by taking the standard pressure as 1 bar, as the program does', () => {
    const shift =
      constantPressureFlame('iC8H18', 1, 101_325) - constantPressureFlame('iC8H18', 1, ATMOSPHERE);
    expect(shift).toBeGreaterThan(0);
    expect(shift).toBeLessThan(1);
  });
});
