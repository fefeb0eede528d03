/** Figures of the trade's sheets: flow bench, carburetor, volumes, pipes, dyno corrections. */

import { J607_REFERENCE, J1349_REFERENCE } from '../../../packages/core/src/combination/referenceAir.ts';
import { brakeFactor } from '../../../packages/core/src/forecast/weatherCorrection.ts';
import {
  clearanceFromRatio,
  clearanceVolume,
  compressionRatio,
} from '../../../packages/core/src/geometry/compression.ts';
import {
  BENCH_AIR,
  flowFromArea,
  incompressibleFlow,
  USUAL_DEPRESSION,
} from '../../../packages/core/src/geometry/flowSheet.ts';
import { type PublishedSource, printed } from '../publishedCase.ts';

const IN = 0.0254;
const CC = 1e-6;
const CFM = 0.3048 ** 3 / 60;
const INH2O = 249.089;
const INHG = 3386.389;

const factor = { unit: '', decimals: 5, within: printed(5) };

export const benchCases: PublishedSource = {
  title: 'Flow bench',
  exact: true,
  source:
    'nozzle and incompressible laws worked with SciPy 1.17; ceilings as the trade quotes them (common practice, no source)',
  cases: [
    ...(
      [
        [293.15, 141.6, 1],
        [288.7056, 140.53, 2],
        [298.15, 142.81, 2],
      ] as const
    ).map(([temperature, flow, decimals]) => ({
      what: `flow of one square inch at 28 inH2O and ${temperature} K`,
      value: flow,
      unit: 'cfm',
      decimals,
      within: printed(decimals),
      compute: () => flowFromArea(IN ** 2, 28 * INH2O, { ...BENCH_AIR, temperature }) / CFM,
    })),
    {
      what: 'compressible over incompressible flow at 28 inH2O',
      value: 0.96242,
      ...factor,
      compute: () => flowFromArea(1, USUAL_DEPRESSION) / incompressibleFlow(1, USUAL_DEPRESSION),
    },
    {
      what: 'ceiling the trade quotes for one square inch at 28 inH2O',
      value: 147,
      unit: 'cfm',
      decimals: 1,
      within: printed(0),
      compute: () => incompressibleFlow(IN ** 2, USUAL_DEPRESSION) / CFM,
    },
    ...(
      [
        [10, 28, 1.67332],
        [25, 28, 1.0583],
        [28, 10, 0.59761],
      ] as const
    ).map(([from, to, value]) => ({
      what: `flow from ${from} to ${to} inH2O by the root law`,
      value,
      ...factor,
      compute: () => incompressibleFlow(1, to * INH2O) / incompressibleFlow(1, from * INH2O),
    })),
  ],
};

export const compressionCases: PublishedSource = {
  title: 'Compression from volumes',
  exact: true,
  source:
    'a worked example, title not noted; magazine article of October 1990 on the engine B, measured at 7.8:1',
  cases: [
    {
      what: 'ratio of 43.731 in3 over a 70 cc chamber, 5 cc piston, 0.050 in deck, 0.020 in gasket on 4.00 in',
      value: 9.01,
      unit: '',
      decimals: 2,
      within: printed(2),
      compute: () =>
        compressionRatio(
          43.731 * IN ** 3,
          clearanceVolume({
            chamber: 70 * CC,
            dome: -5 * CC,
            bore: 4 * IN,
            deckHeight: 0.05 * IN,
            gasketBore: 4 * IN,
            gasketThickness: 0.02 * IN,
            crevice: 0,
          }),
        ),
    },
    {
      what: 'engine B: volume above the piston that 7.8:1 leaves',
      value: 105.4,
      unit: 'cc',
      decimals: 1,
      within: printed(1),
      compute: () => clearanceFromRatio((Math.PI / 4) * 4 ** 2 * 3.48 * IN ** 3, 7.8) / CC,
    },
    {
      what: 'engine B: gasket that remains beside a 78 cc chamber and 21 cc of deck',
      value: 6.4,
      unit: 'cc',
      decimals: 1,
      within: printed(1),
      compute: () => clearanceFromRatio((Math.PI / 4) * 4 ** 2 * 3.48 * IN ** 3, 7.8) / CC - 78 - 21,
    },
  ],
};

/** Dry pressure [Pa] and temperature [K] of a day; saturation vapour pressure by Buck (1981). */
function day(fahrenheit: number, humidity: number, barometer: number): { dry: number; T: number } {
  const c = (fahrenheit - 32) / 1.8;
  const saturation = 611.21 * Math.exp(((18.678 - c / 234.5) * c) / (257.14 + c));
  return { dry: barometer * INHG - humidity * saturation, T: c + 273.15 };
}

const MUGGY = day(85, 0.85, 28.85);
const CRISP = day(55, 0.35, 30.1);
const J607_AIR = { dry: J607_REFERENCE.dryPressure, T: J607_REFERENCE.temperature };
const J1349_AIR = { dry: J1349_REFERENCE.dryPressure, T: J1349_REFERENCE.temperature };

const WEATHER = [
  ['J607', '85 F, 85 %, 28.85 inHg, as printed', MUGGY, 1.1005, 4, 0.001],
  ['J607', '55 F, 35 %, 30.10 inHg, as printed', CRISP, 0.994, 3, printed(3)],
  ['J607', '85 F, 85 %, 28.85 inHg', MUGGY, 1.10113, 5, 5e-5],
  ['J607', '55 F, 35 %, 30.10 inHg', CRISP, 0.99427, 5, 5e-5],
  ['J607', 'reference air of J1349', J1349_AIR, 1.04007, 5, 5e-5],
  ['J1349', '85 F, 85 %, 28.85 inHg', MUGGY, 1.06931, 5, 5e-5],
  ['J1349', '55 F, 35 %, 30.10 inHg', CRISP, 0.94805, 5, 5e-5],
  ['J1349', '950 mbar dry, 35 C', { dry: 95_000, T: 308.15 }, 1.07015, 5, 5e-5],
  ['J1349', 'reference air of J607', J607_AIR, 0.95455, 5, 5e-5],
] as const;

export const weatherCases: PublishedSource = {
  title: 'Dyno correction factors',
  exact: true,
  source:
    'a published worked example of two days; the same worked independently with vapour pressure by Buck',
  note: 'The printed formulas round absolute zero, which moves the fifth decimal. The print does not say how it found vapour pressure.',
  cases: WEATHER.map(([standard, what, air, value, decimals, within]) => ({
    what: `${standard}, ${what}`,
    value,
    unit: '',
    decimals,
    within,
    compute: () => brakeFactor(standard, air.dry, air.T),
  })),
};
