/** Wall heat and friction: the documented formulas, worked independently. */

import { HORSEPOWER, INCH } from '../../../packages/core/src/base/constants.ts';
import { bearingSizes, friction } from '../../../packages/core/src/processes/friction.ts';
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

/** The eight of 470 in3, of about 4.35 by 3.95 in (from memory) and on bearings as estimated; its power on a wet sump [W]. */
const LARGE_EIGHT = {
  ...SMALL_FOUR,
  bore: 4.35 * INCH,
  stroke: 3.95 * INCH,
  cylinders: 8,
  mainBearings: 5,
  ...bearingSizes(4.35 * INCH, 3.95 * INCH),
};
const WET_POWER = 741 * HORSEPOWER;

/** What goes with the square of speed in the friction of its crank, churned oil, as a share of its power [-]. */
function churnedShare(rpm: number): number {
  const crank = (n: number): number => friction(LARGE_EIGHT, n / 60).crank;
  // A constant, a line and a square: the second difference leaves the square.
  const churned = (crank(2 * rpm) - 2 * crank(rpm) + crank(1e-3)) / 2;
  const swept = (Math.PI / 4) * LARGE_EIGHT.bore ** 2 * LARGE_EIGHT.stroke * LARGE_EIGHT.cylinders;
  return (churned * swept * rpm) / 120 / WET_POWER;
}

export const frictionTrendCases: PublishedSource = {
  title: 'Friction beside older measurements',
  source:
    'Barnes-Moss by Heywood (1988), equation 13.6, from memory: motored fours of the 1970s, pumping included; NACA TR 108 (1921): friction torque about linear in speed; hotrod.com, a large eight before and after its dry sump',
  note: 'What the motored total holds besides friction is pumping, so that friction must stay below it. The speed of the power peak of the eight was not read: 6600 rpm, and 1.1 to 1.7 % from 6200 to 7100.',
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
    {
      what: 'power for churned oil, an eight of 470 in3 at its power peak, as what it gained on a dry sump: 741 to 751 hp',
      value: 1.35,
      unit: '%',
      decimals: 2,
      within: 0.5,
      compute: () => 100 * churnedShare(6600),
    },
  ],
};
