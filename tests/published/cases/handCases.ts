/** The trade's conversions and usual sizes, beside what the program makes of them. */

import type { Combination } from '../../../packages/core/src/combination/combination.ts';
import { inductionRating, speedFigures } from '../../../packages/core/src/forecast/speedFigures.ts';
import { defaultIntakeFlow } from '../../../packages/core/src/geometry/defaultFlow.ts';
import {
  BENCH_AIR,
  CARBURETOR_DEPRESSION,
  incompressibleFlow,
  USUAL_DEPRESSION,
} from '../../../packages/core/src/geometry/flowSheet.ts';
import { valveDiameter } from '../../../packages/core/src/reading/defaults/valves.ts';
import { readCombination } from '../../../packages/core/src/reading/readCombination.ts';
import { usualSections } from '../../../packages/core/test/support/usualSections.ts';
import { pointsOf } from '../../physics/engines.ts';
import { once, type PublishedCase, type PublishedSource, printed } from '../publishedCase.ts';

const CFM = 0.3048 ** 3 / 60;
const IN3 = 0.0254 ** 3;
const PSI_PER_BAR = 14.503773773;

function engineWith(carburetor: string): Combination {
  const read = readCombination(
    `name: an eight\nengine: { bore: 4 in, stroke: 3.48 in, cylinders: 8 }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 2 }\ninduction: { carburetor: ${carburetor} }\ncorrection: none\n`,
  );
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return read.value;
}

const fourBarrel = once(() => engineWith('{ rating: 600 cfm, barrels: 4 }'));
const twoBarrel = once(() => engineWith('{ rating: 600 cfm, barrels: 2 }'));

const cubicInches = ({ block }: Combination): number =>
  ((Math.PI / 4) * block.bore * block.bore * block.stroke * block.cylinders) / IN3;

const point = once(() => pointsOf(fourBarrel(), [4000])[0]);

/** Effective over curtain area of an intake valve without a flow sheet on a production head [-]. */
function curtainCoefficient(liftOverDiameter: number): number {
  const diameter = 0.05;
  const { lift, area } = defaultIntakeFlow(diameter, 1, usualSections('as-cast'));
  const i = lift.findIndex((l) => Math.abs(l / diameter - liftOverDiameter) < 1e-9);
  return area[i] / (Math.PI * diameter * lift[i]);
}

const COEFFICIENTS = [
  [0.05, 0.65, 0.75],
  [0.1, 0.65, 0.75],
  [0.25, 0.45, 0.55],
  [0.3, 0.45, 0.55],
] as const;

function ends(
  what: string,
  [low, high]: readonly [number, number],
  compute: () => number,
  cause?: string,
): readonly PublishedCase[] {
  const end = {
    unit: '',
    decimals: 3,
    within: 0,
    aim: true,
    compute,
    ...(cause === undefined ? {} : { cause }),
  };
  return [
    { ...end, what: `${what}, lower end`, value: low, relation: 'at least' },
    { ...end, what: `${what}, upper end`, value: high, relation: 'at most' },
  ];
}

export const handCases: PublishedSource = {
  title: 'Conversions and usual sizes of the trade',
  exact: true,
  source:
    'conversions worked from exact units; carburetor ratings by the carburetor series of EngineLabs, air drawn by the displacement; valve over bore by the course notes of Colorado State University (given there for ports); intake coefficients on the curtain by Annand and Roe and Heywood (1988), figures 6-16 to 6-18, from memory',
  cases: [
    {
      what: 'depression of a flow bench, 28 inH2O',
      value: 6974.5,
      unit: 'Pa',
      decimals: 1,
      within: printed(1),
      compute: () => USUAL_DEPRESSION,
    },
    {
      what: 'pressure ratio of a flow bench at 28 inH2O',
      value: 0.931167,
      unit: '',
      decimals: 6,
      within: printed(6),
      compute: () => 1 - USUAL_DEPRESSION / BENCH_AIR.pressure,
    },
    {
      what: 'depression of a four-barrel rating, 1.5 inHg',
      value: 5079.6,
      unit: 'Pa',
      decimals: 1,
      within: printed(1),
      compute: () => CARBURETOR_DEPRESSION.fourBarrel,
    },
    {
      what: 'two-barrel rating taken to that of four barrels, by the root law',
      value: 70.7,
      unit: '%',
      decimals: 1,
      within: printed(1),
      compute: () =>
        (100 * incompressibleFlow(1, CARBURETOR_DEPRESSION.fourBarrel)) /
        incompressibleFlow(1, CARBURETOR_DEPRESSION.twoBarrel),
    },
    {
      what: 'the same through the nozzle law, as a forecast does it',
      value: 70.7,
      unit: '%',
      decimals: 1,
      within: printed(1),
      aim: true,
      cause:
        "the trade's factor is the root of the depressions, which leaves out that air gets thinner on its way; the nozzle law does not",
      compute: () => (100 * inductionRating(twoBarrel())) / inductionRating(fourBarrel()),
    },
    {
      what: 'speed at which 350 in3 draw 600 cfm through 600 cfm: depression there',
      value: 1.5,
      unit: 'inHg',
      decimals: 3,
      within: 0.001,
      compute: () => {
        const rpm = (600 * 3456) / (cubicInches(fourBarrel()) * 0.95);
        return speedFigures(fourBarrel(), 1, rpm).depressionInHg;
      },
    },
    {
      what: 'rating of a 600 cfm four-barrel, through the file and back',
      value: 600,
      unit: 'cfm',
      decimals: 1,
      within: printed(1),
      compute: () => inductionRating(fourBarrel()) / CFM,
    },
    {
      what: 'mean effective pressure in psi x in3 over torque in lb-ft',
      value: 150.8,
      unit: '',
      decimals: 1,
      within: printed(1),
      compute: () => (point().bmepBar * PSI_PER_BAR * cubicInches(fourBarrel())) / point().torqueLbFt,
    },
    {
      what: 'mean effective pressure in psi x in3 x rpm over power in hp',
      value: 792_000,
      unit: '',
      decimals: 0,
      within: 0.5,
      compute: () =>
        (point().bmepBar * PSI_PER_BAR * cubicInches(fourBarrel()) * point().rpm) / point().powerHp,
    },
    ...ends(
      'intake valve over bore without a measured one, two valves in a wedge',
      [0.44, 0.48],
      () => valveDiameter(1, 'intake', 1, 2, 'wedge').value,
    ),
    ...COEFFICIENTS.flatMap(([ratio, low, high]) =>
      ends(
        `intake flow coefficient on the curtain without a flow sheet, lift over diameter ${ratio}`,
        [low, high],
        () => curtainCoefficient(ratio),
        'estimate by throat and smallest area, remembered too; within its spread of 8 %',
      ),
    ),
    ...[0.15, 0.2].map(
      (ratio): PublishedCase => ({
        what: `the same at ${ratio}`,
        value: 0.6,
        unit: '',
        decimals: 2,
        within: 0.05,
        aim: true,
        cause:
          'the remembered figure is one for 0.15 and 0.20, through which the estimate falls: 0.65 and 0.58, 0.615 in the mean',
        compute: () => curtainCoefficient(ratio),
      }),
    ),
  ],
};
