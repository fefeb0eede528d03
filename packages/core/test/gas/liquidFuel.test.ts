import { describe, expect, it } from 'vitest';
import { buildGasTables, withLiquidFuel } from '../../src/gas/buildGasTables.ts';
import { freshGas } from '../../src/gas/freshGas.ts';
import { frozenU } from '../../src/gas/frozenBlend.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import type { LiquidFuel } from '../../src/gas/liquidFuel.ts';
import {
  fuelVapourPressure,
  liquidEnthalpy,
  liquidFuel,
  troutonBoilingPoint,
} from '../../src/gas/liquidFuel.ts';

function liquid(name: string): LiquidFuel {
  const found = liquidFuel(fuelNamed(name));
  if (found === null) throw new Error(`${name} is a gas`);
  return found;
}

describe('a liquid fuel', () => {
  it('boils at 1 atm', () => {
    for (const name of ['methanol', 'iso-octane', 'pump-91'])
      expect(fuelVapourPressure(liquid(name), liquid(name).boilingPoint)).toBeCloseTo(101_325, 3);
  });

  // Tables, from memory: methanol 16.9, ethanol 7.9, iso-octane 6.6 kPa at 25 degC.
  it.each([
    ['methanol', 16.9],
    ['ethanol', 7.9],
    ['iso-octane', 6.6],
  ])('%s has a vapour pressure of about %d kPa at 25 degC', (name, kPa) => {
    expect(Math.abs(fuelVapourPressure(liquid(name), 298.15) / 1000 / kPa - 1)).toBeLessThan(0.15);
  });

  it('holds less than its vapour by the latent heat, and 2.3 kJ/kg more for each kelvin', () => {
    const methanol = liquid('methanol');
    expect(liquidEnthalpy(methanol, 308.15) - methanol.enthalpy).toBeCloseTo(23_000, 6);
    // Formation of the liquid: -238.7 kJ/mol at 298.15 K (CRC Handbook, from memory; others -239.2), 32.04 g/mol.
    expect(Math.abs(methanol.enthalpy / 1e6 / (-238.7 / 32.04) - 1)).toBeLessThan(3e-3);
  });

  it('is none where the fuel is a gas', () => {
    expect(liquidFuel(fuelNamed('propane'))).toBeNull();
  });

  it('of which only atoms and latent heat are known boils within 4 % of where it does', () => {
    expect(Math.abs(troutonBoilingPoint(1.168e6, { C: 1, H: 4, O: 1 }) / 337.8 - 1)).toBeLessThan(0.04);
    expect(Math.abs(troutonBoilingPoint(0.919e6, { C: 2, H: 6, O: 1 }) / 351.4 - 1)).toBeLessThan(0.05);
    expect(Math.abs(troutonBoilingPoint(0.3076e6, { C: 8, H: 18, O: 0 }) / 372.4 - 1)).toBeLessThan(0.04);
  });
});

describe('fresh gas whose fuel is partly liquid', () => {
  const input = { fuel: fuelNamed('methanol'), lambda: 0.87, vapourPressure: 0, pressure: 101_325 };

  it('is air where none of it is vapour, and the whole mixture where all is', () => {
    const dry = freshGas(input.fuel, 0.87, 101_325, 0, 0);
    expect(dry.fuelFraction).toBe(0);
    expect(dry.gas.R).toBeCloseTo(287.05, 1);
    const tables = buildGasTables(input);
    expect(withLiquidFuel(tables, input, 1).freshU).toEqual(tables.freshU);
  });

  it('takes the room of its vapour alone: half of the vapour, half of the room', () => {
    const moles = (share: number): number => {
      const { gas, fuelFraction } = freshGas(input.fuel, 0.87, 101_325, 0, share);
      // Of gas per mass of air.
      return gas.R / (1 - fuelFraction);
    };
    expect((moles(0.5) - moles(0)) / (moles(1) - moles(0))).toBeCloseTo(0.5, 9);
    // 29/32 moles of methanol for 6.43 x 0.87 kg of air: 16 % more room.
    expect(moles(1) / moles(0)).toBeCloseTo(1 + 28.96 / 32.04 / (6.43 * 0.87), 2);
  });

  it('keeps the burned gas', () => {
    const tables = buildGasTables(input);
    expect(frozenU(withLiquidFuel(tables, input, 0.3), 900, 1)).toBe(frozenU(tables, 900, 1));
  });
});
