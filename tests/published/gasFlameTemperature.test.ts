import { describe, expect, it } from 'vitest';
import { burnedGas } from '../../packages/core/src/gas/burnedGas.ts';
import { vapourHeatingValue } from '../../packages/core/src/gas/fuel.ts';
import { mixture, mixtureH, mixtureU } from '../../packages/core/src/gas/mixture.ts';
import { species } from '../../packages/core/src/gas/species.ts';
import reference from '../data/flame-temperatures.json' with { type: 'json' };
import { bisect, burnedOfEnergy, fromReference, simpleMixture } from './gasReference.ts';

const ATMOSPHERE = fromReference(101_325);

function constantPressure(fuel: string, phi: number, p: number): number {
  const { gas } = simpleMixture(fuel, phi);
  const h = mixtureH(gas, 298.15);
  return bisect((T) => mixtureH(burnedGas(gas.atoms, T, p), T) - h, 1000, 4000);
}

function constantVolume(
  fuel: string,
  phi: number,
  T: number,
  p: number,
): { T: number; pressureRatio: number } {
  const { gas } = simpleMixture(fuel, phi);
  const burned = burnedOfEnergy(gas.atoms, mixtureU(gas, T), (gas.R * T) / p);
  return { T: burned.T, pressureRatio: burned.p / p };
}

describe('adiabatic flame temperature against Cantera 3.2.0', () => {
  it.each(reference.fuelsAtStoichiometricMixture.rows)('$fuel at stoichiometric mixture', (row) => {
    expect(Math.abs(constantPressure(row.fuel, 1, ATMOSPHERE) - row.constantPressure_K)).toBeLessThan(0.1);
    const closed = constantVolume(row.fuel, 1, 298.15, ATMOSPHERE);
    expect(Math.abs(closed.T - row.constantVolume_K)).toBeLessThan(0.1);
    expect(Math.abs(closed.pressureRatio - row.pressureRatio)).toBeLessThan(0.001);
  });

  it.each(reference.fuelsAtStoichiometricMixture.rows)('$fuel, heating value and air-fuel ratio', (row) => {
    const vapour = mixture([{ gas: species(row.fuel), moles: 1 }]);
    expect(Math.abs(vapourHeatingValue(vapour) / 1e6 / row.heatingValue_MJ_kg - 1)).toBeLessThan(1e-4);
    expect(Math.abs(simpleMixture(row.fuel, 1).airFuelRatio - row.airFuelRatio)).toBeLessThan(0.006);
  });

  it.each(reference.isoOctaneConstantPressure.rows)('iso-octane at constant pressure, phi $phi', (row) => {
    expect(Math.abs(constantPressure('iC8H18', row.phi, ATMOSPHERE) - row.T_K)).toBeLessThan(0.1);
  });

  it.each(reference.isoOctaneConstantVolume.rows)(
    'iso-octane at constant volume from 700 K, 25 bar, phi $phi',
    (row) => {
      const closed = constantVolume('iC8H18', row.phi, 700, fromReference(25e5));
      expect(Math.abs(closed.T - row.T_K)).toBeLessThan(0.1);
      expect(Math.abs(closed.pressureRatio * 25 - row.p_bar)).toBeLessThan(0.01);
    },
  );

  it('is moved by less than 1 K by taking the standard pressure as 1 bar, as the program does', () => {
    const shift = constantPressure('iC8H18', 1, 101_325) - constantPressure('iC8H18', 1, ATMOSPHERE);
    expect(shift).toBeGreaterThan(0);
    expect(shift).toBeLessThan(1);
  });
});
