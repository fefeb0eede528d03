import { describe, expect, it } from 'vitest';
import { latentBesideGasoline } from '../../src/gas/besideGasoline.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';

describe('heat that evaporates a fuel', () => {
  // 341.7 and 1168.2 kJ/kg, 14.603 and 6.473 of air: 0.2925, and 0.2925 x 6.473 / 14.603 = 0.1297.
  it('evaporates 0.29 kg of methanol for each of gasoline, and in a kilogram of air 0.13 of the share', () => {
    const { byFuel, byAir } = latentBesideGasoline(fuelNamed('methanol'));
    expect(byFuel).toBeCloseTo(0.2925, 4);
    expect(byAir).toBeCloseTo(0.1297, 4);
  });

  it('is the same for gasoline, and needs nothing of a gas', () => {
    expect(latentBesideGasoline(fuelNamed('pump-87'))).toEqual({ byFuel: 1, byAir: 1 });
    expect(latentBesideGasoline(fuelNamed('propane'))).toEqual({ byFuel: 1, byAir: 1 });
  });
});
