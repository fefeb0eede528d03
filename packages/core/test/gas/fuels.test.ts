import { describe, expect, it } from 'vitest';
import { stoichiometricAirFuelRatio } from '../../src/gas/freshGas.ts';
import { type Fuel, fuelVapour, vapourHeatingValue } from '../../src/gas/fuel.ts';
import { FUEL_NAMES, FUELS, fuelNamed } from '../../src/gas/fuels.ts';
import { mixture, mixtureH } from '../../src/gas/mixture.ts';
import { species } from '../../src/gas/species.ts';
import { mixtureCp } from './mixtureCp.ts';

describe('the fuels shipped', () => {
  it.each(FUELS)(
    '$name: antiknock index in the name is (RON + MON) / 2',
    ({ name, researchOctane, motorOctane }) => {
      const index = /\d\d+/.exec(name.startsWith('e') ? '' : name)?.[0];
      if (index !== undefined) expect((researchOctane + motorOctane) / 2).toBe(Number(index));
      expect(researchOctane).toBeGreaterThanOrEqual(motorOctane);
    },
  );

  it.each(FUELS)(
    '$name: its data need no shift of the formation enthalpy beyond 0.1 % of the heating value',
    (fuel) => {
      const plain = mixture(
        (fuel.composition ?? []).map((part) => ({ gas: species(part.species), moles: part.moles })),
      );
      const stated = fuel.lowerHeatingValue + fuel.latentHeat;
      expect(Math.abs(vapourHeatingValue(plain) / stated - 1)).toBeLessThan(1e-3);
      expect(vapourHeatingValue(fuelVapour(fuel))).toBeCloseTo(stated, 2);
    },
  );

  it.each([
    // Heating value [MJ/kg liquid], air-fuel ratio, latent heat [kJ/kg]: common handbook figures, wide on purpose.
    { name: 'pump-93', heatingValue: [42.5, 44], ratio: [14.4, 14.8], latent: [305, 380] },
    { name: 'pump-93-e10', heatingValue: [41, 42.2], ratio: [13.8, 14.3], latent: [360, 440] },
    { name: 'race-110', heatingValue: [42.5, 44.3], ratio: [14.4, 15.2], latent: [300, 380] },
    { name: 'e85', heatingValue: [28.8, 29.6], ratio: [9.6, 9.9], latent: [780, 880] },
    { name: 'ethanol', heatingValue: [26.7, 26.95], ratio: [8.95, 9.05], latent: [840, 930] },
    { name: 'methanol', heatingValue: [19.8, 20.1], ratio: [6.4, 6.5], latent: [1100, 1190] },
    { name: 'iso-octane', heatingValue: [44.2, 44.45], ratio: [15, 15.2], latent: [270, 315] },
  ])(
    '$name has the usual heating value, air-fuel ratio and latent heat',
    ({ name, heatingValue, ratio, latent }) => {
      const fuel = fuelNamed(name);
      const between = (x: number, [low, high]: number[]) => {
        expect(x).toBeGreaterThan(low);
        expect(x).toBeLessThan(high);
      };
      between(fuel.lowerHeatingValue / 1e6, heatingValue);
      between(stoichiometricAirFuelRatio(fuel), ratio);
      between(fuel.latentHeat / 1e3, latent);
    },
  );

  it('needs 15.13 kg of air for iso-octane with the argon and CO2 of real air (Heywood 1988, table D.4)', () =>
    expect(stoichiometricAirFuelRatio(fuelNamed('iso-octane'))).toBeCloseTo(15.13, 2));

  it('names what it knows', () => {
    expect(() => fuelNamed('diesel')).toThrow('fuel must be one of pump-87');
    expect(new Set(FUEL_NAMES).size).toBe(FUELS.length);
  });
});

describe("a user's own fuel, by atoms", () => {
  const own = (name: string, C: number, H: number, O: number, heat: number, latentHeat = 0): Fuel => ({
    name,
    composition: null,
    atoms: { C, H, O },
    lowerHeatingValue: heat,
    latentHeat,
    boilingPoint: 370,
    researchOctane: 100,
    motorOctane: 100,
  });

  it.each([
    // Heating values of the vapour, computed with Cantera 3.2.0; benzene: 40.14 liquid (from memory) + 0.433 latent.
    { name: 'CH4', heat: 50.025e6, within: 0.22 },
    { name: 'C3H8', heat: 46.333e6, within: 0.12 },
    { name: 'C7H16', heat: 44.921e6, within: 0.08 },
    { name: 'C6H6', heat: 40.573e6, within: 0.08 },
    { name: 'CH3OH', heat: 21.104e6, within: 0.08 },
  ])(
    '$name comes out of its atoms and heating value: cp within $within, formation enthalpy within 0.1 % of it',
    ({ name, heat, within }) => {
      // None of these was used to make the rule.
      const real = species(name);
      const gas = fuelVapour(own(name, real.atoms.C, real.atoms.H, real.atoms.O, heat));
      const truth = mixture([{ gas: real, moles: 1 }]);
      for (const T of [300, 500, 800, 1200, 1500])
        expect(Math.abs(mixtureCp(gas, T) / mixtureCp(truth, T) - 1), `${T} K`).toBeLessThan(within);
      expect(gas.molarMass).toBeCloseTo(real.molarMass, 12);
      expect(Math.abs(mixtureH(gas, 298.15) - mixtureH(truth, 298.15))).toBeLessThan(1e-3 * heat);
    },
  );

  it('is iso-octane itself when given its atoms and heat', () => {
    const known = fuelNamed('iso-octane');
    const gas = fuelVapour(own('mine', 8, 18, 0, known.lowerHeatingValue, known.latentHeat));
    const truth = fuelVapour(known);
    for (const T of [300, 900, 1400]) expect(mixtureH(gas, T) / mixtureH(truth, T)).toBeCloseTo(1, 9);
  });

  it('refuses what does not burn or is not stated', () => {
    expect(() => fuelVapour(own('x', 0, 2, 0, 1e8))).toThrow('atoms.C must be');
    expect(() => fuelVapour(own('x', 1, 0, 2, 1e6))).toThrow('atoms.O must be in [0, 2 C + H / 2)');
    expect(() => fuelVapour(own('x', 1, -1, 0, 1e6))).toThrow('atoms.H must be');
    expect(() => fuelVapour(own('x', 8, 18, 0, Number.NaN))).toThrow('lowerHeatingValue must be');
    expect(() => fuelVapour(own('x', 8, 18, 0, 4e7, -1))).toThrow('latentHeat must be');
    expect(() => fuelVapour({ ...own('x', 8, 18, 0, 4e7), atoms: null })).toThrow(
      'fuel must be given by composition or atoms',
    );
  });
});
