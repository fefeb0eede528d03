/** Burning: Wiebe's law, ideal cycles with it, laminar flame speed, autoignition. */

import { autoignitionDelay } from '../../../packages/core/src/processes/knock.ts';
import { laminarFlameSpeed } from '../../../packages/core/src/processes/laminarFlameSpeed.ts';
import { WIEBE_A } from '../../../packages/core/src/processes/wiebe.ts';
import {
  finiteHeatRelease,
  HEAT,
  otto,
  RATIO,
} from '../../../packages/core/test/processes/finiteHeatRelease.ts';
import { wiebeShare } from '../../../packages/core/test/processes/plainWiebe.ts';
import { once, type PublishedSource, printed } from '../publishedCase.ts';

const ATMOSPHERE = 101_325;

export const wiebeCases: PublishedSource = {
  title: 'Wiebe burn law',
  exact: true,
  source: 'xb = 1 - exp(-a y^(m + 1)), a = 5, m = 2 (Heywood 1988, from memory), inverted with SciPy 1.17',
  cases: [
    ...(
      [
        [0.01, 0.1262],
        [0.1, 0.27621],
        [0.5, 0.51755],
        [0.9, 0.77223],
        [0.99, 0.97295],
      ] as const
    ).map(([burned, value]) => ({
      what: `share of the duration until ${100 * burned} % is burned`,
      value,
      unit: '',
      decimals: 5,
      within: printed(5),
      compute: () => wiebeShare(burned, 5, 2),
    })),
    {
      what: '10 to 90 % burned',
      value: 0.49603,
      unit: '',
      decimals: 5,
      within: printed(5),
      compute: () => wiebeShare(0.9, 5, 2) - wiebeShare(0.1, 5, 2),
    },
    ...(
      [
        [0.1, 0.24799],
        [0.5, 0.46468],
        [0.9, 0.69335],
      ] as const
    ).map(([burned, value]) => ({
      what: `share of the duration until ${100 * burned} % is burned with a = 6.908`,
      value,
      unit: '',
      decimals: 5,
      within: printed(5),
      compute: () => wiebeShare(burned, 6.908, 2),
    })),
    {
      what: '10 to 90 % burned with a = ln 1000',
      value: 0.44536,
      unit: '',
      decimals: 5,
      within: printed(5),
      compute: () => wiebeShare(0.9, WIEBE_A, 2) - wiebeShare(0.1, WIEBE_A, 2),
    },
  ],
};

const RELEASE = [
  [1.4, -30, 102.7264, 4.54, 11.7494, 0.58747],
  [1.4, -20, 87.7823, 10.81, 11.91474, 0.59574],
  [1.4, -10, 70.0792, 18.62, 11.68187, 0.58409],
  [1.4, 0, 53.5326, 27.69, 11.09731, 0.55487],
  [1.3, -20, 67.2266, 11.03, 9.8606, 0.49303],
  [1.3, 0, 41.8357, 27.93, 9.1049, 0.45524],
] as const;

/** Start of the burn, efficiency over that without a length of burn, mean effective pressure over p1; gamma 1.4. */
const OVER_OTTO = [
  [-30, 0.97604, 13.05488],
  [-20, 0.98977, 13.2386],
  [-10, 0.97043, 12.97986],
  [0, 0.92187, 12.33034],
] as const;

const five = { unit: '', decimals: 5, within: printed(5) };

export const heatReleaseCases: PublishedSource = {
  title: 'Ideal cycle with finite heat release',
  exact: true,
  source:
    'inputs of Ferguson and Kirkpatrick, Internal Combustion Engines, chapter 2 (from memory); results worked independently with SciPy 1.17',
  cases: [
    ...RELEASE.flatMap(([gamma, start, peak, at, work, eta]) => {
      const cycle = once(() => finiteHeatRelease(gamma, start));
      const name = `gamma ${gamma}, burn from ${start} deg`;
      return [
        { what: `work over p1 V1, ${name}`, value: work, ...five, compute: () => cycle().work },
        {
          what: `peak pressure over p1, ${name}`,
          value: peak,
          unit: '',
          decimals: 4,
          within: printed(4),
          compute: () => cycle().peak,
        },
        {
          what: `angle of the peak, ${name}`,
          value: at,
          unit: 'deg',
          decimals: 2,
          within: printed(2),
          compute: () => cycle().peakAngle,
        },
        {
          what: `efficiency, ${name}`,
          value: eta,
          unit: '',
          decimals: 5,
          within: printed(5),
          compute: () => cycle().work / HEAT,
        },
      ];
    }),
    ...OVER_OTTO.flatMap(([start, share, imep]) => {
      const work = once(() => finiteHeatRelease(1.4, start).work);
      const name = `gamma 1.4, burn from ${start} deg`;
      return [
        {
          what: `efficiency over that of an instant burn, ${name}`,
          value: share,
          ...five,
          compute: () => work() / HEAT / otto(RATIO, 1.4),
        },
        {
          what: `mean effective pressure over p1, ${name}`,
          value: imep,
          ...five,
          compute: () => work() / (1 - 1 / RATIO),
        },
      ];
    }),
    {
      what: 'peak pressure over p1 as the book prints it, burn from -20 deg (from memory)',
      value: 87.8,
      unit: '',
      decimals: 1,
      within: printed(1),
      compute: () => finiteHeatRelease(1.4, -20).peak,
    },
  ],
};

const OTTO = [
  [6, 0.5116, 0.4158],
  [8, 0.5647, 0.4641],
  [9, 0.5848, 0.4827],
  [RATIO, 0.6019, 0.4988],
  [11, 0.6168, 0.5129],
  [12, 0.6299, 0.5255],
  [14, 0.652, 0.5469],
  [16, 0.6701, 0.5647],
] as const;

export const ottoCases: PublishedSource = {
  title: 'Air-standard cycle',
  exact: true,
  source: '1 - r^(1 - gamma), worked independently; reached by a burn of no length',
  cases: OTTO.flatMap(([r, at14, at13]) =>
    (
      [
        [1.4, at14],
        [1.3, at13],
      ] as const
    ).map(([gamma, value]) => ({
      what: `efficiency at compression ratio ${r}, gamma ${gamma}`,
      value,
      unit: '',
      decimals: 4,
      within: printed(4),
      compute: () => finiteHeatRelease(gamma, -5e-4, 1e-3, r).work / HEAT,
    })),
  ),
};

const FLAME = [
  ['gasoline', 0.8, 45.09],
  ['gasoline', 1, 63.69],
  ['gasoline', 1.2, 74.05],
  ['iso-octane', 0.8, 48.23],
  ['iso-octane', 1, 69.89],
  ['iso-octane', 1.2, 72.4],
  ['methanol', 0.8, 66.08],
  ['methanol', 1, 98.93],
  ['methanol', 1.2, 100.03],
  ['propane', 0.8, 65.88],
  ['propane', 1, 93.63],
  ['propane', 1.2, 90.07],
  ['ethanol', 0.8, 47.87],
  ['ethanol', 1.2, 78.4],
] as const;

export const flameSpeedCases: PublishedSource = {
  title: 'Laminar flame speed',
  exact: true,
  source:
    'Metghalchi and Keck (1982) with the constants of Heywood (1988) table 9.3, Rhodes and Keck (1985) and Gulder (1984), from memory; worked independently',
  note: 'At 700 K, 20 atm and a diluent of 0.08 by moles.',
  cases: FLAME.map(([fuel, phi, value]) => ({
    what: `${fuel}, phi ${phi}`,
    value,
    unit: 'cm/s',
    decimals: 2,
    within: printed(2),
    compute: () => 100 * laminarFlameSpeed(fuel, phi, 700, 20 * ATMOSPHERE, 0.08),
  })),
};

const DELAYS = [
  [100, 20, 900, 7.40319],
  [95, 30, 850, 4.00077],
  [90, 40, 800, 2.69906],
  [87, 40, 800, 2.40505],
] as const;

export const knockCases: PublishedSource = {
  title: 'Autoignition delay',
  exact: true,
  source: 'Douaud and Eyzat, SAE 780080 (1978), from memory; worked independently',
  cases: DELAYS.map(([octane, p, T, value]) => ({
    what: `octane ${octane}, ${p} atm, ${T} K`,
    value,
    unit: 'ms',
    decimals: 5,
    within: printed(5),
    compute: () => 1e3 * autoignitionDelay(p * ATMOSPHERE, T, octane),
  })),
};
