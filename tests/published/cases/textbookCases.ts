/** What textbooks print of fuels and cycles, remembered rather than read: coarse, but of another origin than the tables. */

import { stoichiometricAirFuelRatio } from '../../../packages/core/src/gas/freshGas.ts';
import { fuelNamed } from '../../../packages/core/src/gas/fuels.ts';
import cycles from '../../data/fuel-air-cycle.json' with { type: 'json' };
import { constantPressureFlame } from '../flames.ts';
import { fuelAirCycle } from '../fuelAirCycle.ts';
import { ATMOSPHERE } from '../gasReference.ts';
import { type PublishedSource, printed } from '../publishedCase.ts';

const TURNS = [
  ['CH4', 2226],
  ['C3H8', 2267],
  ['iC8H18', 2275],
] as const;

const READINGS = [
  [8, 0.43],
  [10, 0.46],
  [12, 0.49],
] as const;

const { withResidual } = cycles;

export const textbookCases: PublishedSource = {
  title: 'Fuels and cycles of the textbooks',
  exact: true,
  source:
    'Turns, An Introduction to Combustion, table of adiabatic flame temperatures; Heywood (1988), table D.4 and figure 5-9 after Edson and Taylor: all from memory',
  cases: [
    ...TURNS.map(([fuel, value]) => ({
      what: `${fuel}, flame temperature at constant pressure, stoichiometric, as printed`,
      value,
      unit: 'K',
      decimals: 0,
      within: printed(0),
      aim: true,
      cause:
        'the print works from older heats of formation and its n-octane is no iso-octane; the exact calculation above agrees with the program to 0.1 K',
      compute: () => constantPressureFlame(fuel, 1, ATMOSPHERE),
    })),
    {
      what: 'iso-octane, air-fuel ratio in real air',
      value: 15.13,
      unit: '',
      decimals: 2,
      within: printed(2),
      compute: () => stoichiometricAirFuelRatio(fuelNamed('iso-octane')),
    },
    {
      what: 'iso-octane, lower heating value of the liquid',
      value: 44.3,
      unit: 'MJ/kg',
      decimals: 1,
      within: printed(1),
      compute: () => fuelNamed('iso-octane').lowerHeatingValue / 1e6,
    },
    {
      what: 'gasoline, lower heating value of the liquid, lower end',
      value: 43,
      unit: 'MJ/kg',
      decimals: 2,
      within: 0,
      relation: 'at least',
      compute: () => fuelNamed('pump-91').lowerHeatingValue / 1e6,
    },
    {
      what: 'the same, upper end',
      value: 44,
      unit: 'MJ/kg',
      decimals: 2,
      within: 0,
      relation: 'at most',
      compute: () => fuelNamed('pump-91').lowerHeatingValue / 1e6,
    },
    ...READINGS.map(([r, value]) => ({
      what: `efficiency of the fuel-air cycle with 5 % residual, phi 1, compression ratio ${r}, read off the figure`,
      value,
      unit: '',
      decimals: 4,
      within: printed(2),
      aim: true,
      cause:
        'a reading off a chart, remembered to two digits; the exact calculation above gives 0.4248 at a ratio of 8 as the program does',
      compute: () =>
        fuelAirCycle(1, r, withResidual.T1_K, withResidual.p1_Pa, withResidual.residual).efficiency,
    })),
  ],
};
