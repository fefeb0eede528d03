import { describe, expect, it } from 'vitest';
import { fuelRating } from '../../src/forecast/fuelRating.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';

describe('fuelRating(fuel)', () => {
  const iso = fuelNamed('iso-octane');

  it('leaves a reference fuel its numbers and its gas', () => {
    const { temperature, research, motor } = fuelRating(iso);
    expect(temperature).toBeCloseTo(739, 9);
    expect(research).toBeCloseTo(100, 9);
    expect(motor).toBeCloseTo(100, 9);
  });

  // 1 MJ/kg in 16.13 kg of mixture, 0.7 of it from gas of 1050 J/(kg K): 41.3 K at the closing of the valve, 4.13 numbers. Entropy
  // makes of them 739/394 of that, less by how much more heat gas takes at 705 K than at 373: by 0.88 for air with 7 % of octane.
  it('takes off the research number what the cold of evaporation is worth, and rates the fuel in that cold gas', () => {
    const { temperature, research, motor } = fuelRating({ ...iso, latentHeat: iso.latentHeat + 1e6 });
    expect(Math.abs(739 - temperature - 68.2)).toBeLessThan(1);
    expect(100 - research).toBeCloseTo(4.13, 1);
    expect(motor).toBeCloseTo(100, 1);
  });

  it('goes no lower than the scale', () => {
    const poor = { ...iso, researchOctane: 3, latentHeat: iso.latentHeat + 1e6 };
    expect(fuelRating(poor).research).toBe(0);
  });

  // What the standard engine itself asks for with these fuels, run by the program at heights for 90 to 100: 1.0 to 1.1 more than with iso-octane.
  it.each(['pump-87', 'pump-93', 'race-110'])('counts what %s gets warmer when it is compressed', (name) => {
    const fuel = fuelNamed(name);
    const { temperature, research, motor } = fuelRating(fuel);
    expect(Math.abs(research - fuel.researchOctane - 1)).toBeLessThan(0.2);
    expect(Math.abs(motor - fuel.motorOctane - 1)).toBeLessThan(0.2);
    expect(Math.abs(temperature - 740.8)).toBeLessThan(1);
  });

  // Ethanol in gas as warm as a reference fuel's: some 5 numbers (Foong et al., SAE 2013-01-0886, from memory).
  it('takes 3 to 9 numbers off alcohols, most off methanol', () => {
    const less = ['e85', 'ethanol', 'methanol'].map(
      (name) => fuelNamed(name).researchOctane - fuelRating(fuelNamed(name)).research,
    );
    expect(Math.abs(less[1] - 5)).toBeLessThan(0.5);
    expect(less[0]).toBeGreaterThan(3);
    expect(less[2]).toBeLessThan(9);
    expect(less).toEqual([...less].sort((a, b) => a - b));
  });
});
