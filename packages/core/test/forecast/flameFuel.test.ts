import { expect, it } from 'vitest';
import { flameFuelOf } from '../../src/forecast/flameFuel.ts';
import type { Fuel } from '../../src/gas/fuel.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';

it.each([
  ['pump-87', 'gasoline'],
  ['pump-93-e10', 'gasoline'],
  ['race-110', 'gasoline'],
  ['e85', 'ethanol'],
  ['ethanol', 'ethanol'],
  ['methanol', 'methanol'],
  ['iso-octane', 'iso-octane'],
  ['propane', 'propane'],
  ['natural-gas', 'gasoline'],
])('the flame of %s is that measured of %s', (name, flame) => {
  expect(flameFuelOf(fuelNamed(name))).toBe(flame);
});

/** A fuel known by its atoms alone. */
const own = (C: number, H: number, O: number): Fuel => ({
  ...fuelNamed('pump-87'),
  composition: null,
  atoms: { C, H, O },
});

it.each([
  ['gasoline', own(7.5, 14, 0), 'gasoline'],
  ['gasoline with some ether', own(7, 14, 1), 'gasoline'],
  ['methanol', own(1, 4, 1), 'methanol'],
  ['ethanol', own(2, 6, 1), 'ethanol'],
])('the flame of a fuel with the atoms of %s follows from its oxygen', (_what, fuel, flame) => {
  expect(flameFuelOf(fuel)).toBe(flame);
});
