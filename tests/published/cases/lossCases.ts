/** Wall heat and friction: the documented formulas, worked independently. */

import { friction } from '../../../packages/core/src/processes/friction.ts';
import { hohenberg, woschniOriginal } from '../../../packages/core/src/processes/wallHeat.ts';
import { woschniHeywood } from '../../../packages/core/test/processes/woschniHeywood.ts';
import { SMALL_FOUR } from '../../../packages/core/test/support/smallFour.ts';
import { type PublishedCase, type PublishedSource, printed } from '../publishedCase.ts';

export const wallHeatCases: PublishedSource = {
  title: 'Wall heat',
  exact: true,
  source:
    'Woschni in its original form and in the kPa form of Heywood (1988), Hohenberg; worked independently',
  note: 'The two printed forms of Woschni differ by 15 %. The program uses the original form.',
  cases: [
    {
      what: 'Woschni, kPa form: bore 0.1 m, 30 bar, 1500 K, 27.36 m/s',
      value: 790.2,
      unit: 'W/(m2 K)',
      decimals: 1,
      within: printed(1),
      compute: () => woschniHeywood(0.1, 3e6, 1500, 27.36),
    },
    {
      what: 'Woschni, original form, the same',
      value: 914.8,
      unit: 'W/(m2 K)',
      decimals: 1,
      within: printed(1),
      compute: () => woschniOriginal(0.1, 3e6, 1500, 27.36),
    },
    {
      what: 'Hohenberg: 100 cm3, 30 bar, 1500 K, 12 m/s',
      value: 1466.29,
      unit: 'W/(m2 K)',
      decimals: 2,
      within: printed(2),
      compute: () => hohenberg(1e-4, 30e5, 1500, 12),
    },
    {
      what: 'Hohenberg: 600 cm3, 1 bar, 400 K, 12 m/s',
      value: 147.04,
      unit: 'W/(m2 K)',
      decimals: 2,
      within: printed(2),
      compute: () => hohenberg(6e-4, 1e5, 400, 12),
    },
  ],
};

export const frictionCases: PublishedSource = {
  title: 'Friction',
  exact: true,
  source:
    'Patton, Nitschke and Heywood, SAE 890836 (1989), and Sandoval and Heywood, SAE 2003-01-0725 (2003), constants from memory; worked independently for an 86 mm square four',
  cases: [85, 97, 115, 136, 161, 188].map((value, i) => ({
    what: `friction at ${1000 * (i + 1)} rpm`,
    value,
    unit: 'kPa',
    decimals: 1,
    within: printed(0),
    compute: () => friction(SMALL_FOUR, (1000 * (i + 1)) / 60).total * 1e-3,
  })),
};

/** Motored mean effective pressure with pumping at 1000 rpm and on [bar]: 0.97 + 0.15 n + 0.05 n^2, n in 1000 rpm. */
const MOTORED = [1.17, 1.47, 1.87, 2.37, 2.97, 3.67];

const frictionAt = (rpm: number): number => friction(SMALL_FOUR, rpm / 60).total;

export const frictionTrendCases: PublishedSource = {
  title: 'Friction beside older measurements',
  source:
    'Barnes-Moss by Heywood (1988), equation 13.6, from memory: motored fours of the 1970s, pumping included; NACA TR 108 (1921): friction torque about linear in speed',
  note: 'What the motored total holds besides friction is pumping, so that friction must stay below it.',
  cases: [
    ...MOTORED.map(
      (value, i): PublishedCase => ({
        what: `friction of the same four at ${1000 * (i + 1)} rpm, below what motoring it takes`,
        value,
        unit: 'bar',
        decimals: 2,
        within: 0,
        relation: 'at most',
        compute: () => frictionAt(1000 * (i + 1)) / 1e5,
      }),
    ),
    {
      what: 'friction at 2000 rpm over the mean of 1000 and 3000 rpm, one where it is linear',
      value: 1,
      unit: '',
      decimals: 3,
      within: 0.05,
      compute: () => (2 * frictionAt(2000)) / (frictionAt(1000) + frictionAt(3000)),
    },
  ],
};
