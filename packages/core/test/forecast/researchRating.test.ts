import { describe, expect, it } from 'vitest';
import { researchRating } from '../../src/forecast/researchRating.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';

describe('researchRating(fuel)', () => {
  const iso = fuelNamed('iso-octane');

  it('leaves a reference fuel its number and its gas', () => {
    expect(researchRating(iso)).toEqual({ temperature: 739, octane: 100 });
  });

  // 1 MJ/kg in 16.13 kg of mixture, 0.7 of it from gas of 1050 J/(kg K): 41.3 K at the closing of the valve, 77.9 K compressed, 2.5 numbers.
  it('takes off the number what the cold of its evaporation is worth, and rates it in that cold gas', () => {
    const { temperature, octane } = researchRating({ ...iso, latentHeat: iso.latentHeat + 1e6 });
    expect(temperature).toBeCloseTo(739 - 77.9, 0);
    expect(octane).toBeCloseTo(100 - 2.48, 2);
  });

  it('takes 2 to 6 numbers off alcohols, and a quarter at most off gasoline', () => {
    const less = (name: string) => fuelNamed(name).researchOctane - researchRating(fuelNamed(name)).octane;
    for (const name of ['e85', 'ethanol', 'methanol']) {
      expect(less(name), name).toBeGreaterThan(2);
      expect(less(name), name).toBeLessThan(6);
    }
    for (const name of ['pump-87', 'pump-93']) expect(Math.abs(less(name)), name).toBeLessThan(0.25);
  });
});
