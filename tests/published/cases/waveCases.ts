/** Waves in ducts: notes of pipes, and one cylinder with strong waves. */

import {
  REFERENCE_TABLE,
  type ReferenceResult,
  runReference,
} from '../../../packages/core/test/cycle/referenceRun.ts';
import { AREA, C, resonance, ringPipe, ringVolume } from '../../../packages/core/test/network/ringing.ts';
import { once, type PublishedCase, type PublishedSource } from '../publishedCase.ts';

const share = { unit: 'Hz', decimals: 1, relative: true };
const QUARTER = C / (4 * 0.5);
const WIDE = 100 * AREA * 0.3;

export const noteCases: PublishedSource = {
  title: 'Notes of pipes and resonators',
  source: 'linear acoustics: c / (4 L); c / (2 pi) sqrt(A / (L V)); k L tan(k L) = A L / V',
  cases: [
    {
      what: 'pipe of 0.5 m closed at one end, 20 cells',
      value: QUARTER,
      ...share,
      within: 0.005,
      compute: () => ringPipe(20, AREA),
    },
    {
      what: 'the same with 8 cells',
      value: QUARTER,
      ...share,
      within: 0.02,
      compute: () => ringPipe(8, AREA),
    },
    {
      what: 'Helmholtz resonator of a hundred pipe volumes',
      value: (C / (2 * Math.PI)) * Math.sqrt(AREA / (0.3 * WIDE)),
      ...share,
      within: 0.02,
      compute: () => ringVolume(WIDE, 0.5, 8),
    },
    ...[1, 3, 10].map((times) => ({
      what: `volume of ${times} pipe volume${times === 1 ? '' : 's'} with its pipe`,
      value: resonance(times * AREA * 0.3, 0.3),
      ...share,
      within: 0.01,
      compute: () => ringVolume(times * AREA * 0.3, 0.12, 20),
    })),
  ],
};

/** Each speed of the reference, run when first asked for. */
const RUNS = new Map(REFERENCE_TABLE.map(([speed]) => [speed as number, once(() => runReference(speed))]));

function runAt(speed: number): ReferenceResult {
  const run = RUNS.get(speed);
  if (run === undefined) throw new RangeError(`${speed} rpm is not in the reference`);
  return run();
}

/** Volumetric efficiency the program gives at a speed of the reference [-]. */
export const fillingAt = (speed: number): number => runAt(speed).ve;
/** Speeds of the reference where filling has a hole. */
const HOLES = [2500, 4500];

const shape = { unit: '', decimals: 3, within: 0 };

/** Where filling has its peaks and holes. */
const shapeCases: readonly PublishedCase[] = [
  {
    what: 'speed of most filling',
    value: 6500,
    unit: 'rpm',
    decimals: 0,
    within: 500,
    compute: () =>
      REFERENCE_TABLE.reduce((best, [speed]) => (fillingAt(speed) > fillingAt(best) ? speed : best), 2000),
  },
  {
    what: 'filling at the peak of 3500 rpm over the better neighbour',
    value: 1,
    ...shape,
    relation: 'at least',
    compute: () => fillingAt(3500) / Math.max(fillingAt(3000), fillingAt(4000)),
  },
  ...HOLES.map(
    (hole): PublishedCase => ({
      what: `filling in the hole of ${hole} rpm over the worse neighbour`,
      value: 1,
      ...shape,
      relation: 'at most',
      compute: () => fillingAt(hole) / Math.min(fillingAt(hole - 500), fillingAt(hole + 500)),
    }),
  ),
  {
    what: 'residual in the lesser hole over the most elsewhere',
    value: 1,
    ...shape,
    relation: 'at least',
    compute: () => {
      const elsewhere = REFERENCE_TABLE.map(([speed]) => speed).filter((speed) => !HOLES.includes(speed));
      const most = Math.max(...elsewhere.map((speed) => runAt(speed).residual));
      return Math.min(...HOLES.map((speed) => runAt(speed).residual)) / most;
    },
  },
];

export const oneDimensionalCases: PublishedSource = {
  title: 'One cylinder with strong waves',
  source:
    'an independent one-dimensional solution (second order, HLLC; doubling its cells moves nothing by more than 0.3 %), tests/data/reference-1d.md: computed, not measured',
  note: 'Of its net mean effective pressure only the largest difference is shown: the description leaves the heat capacity of the burned gas open, on which work hangs and filling hardly does.',
  cases: [
    ...REFERENCE_TABLE.flatMap(([speed, ve, residual, , pmep]): readonly PublishedCase[] => [
      {
        what: `volumetric efficiency at ${speed} rpm`,
        value: ve,
        unit: '',
        decimals: 3,
        within: 0.015,
        relative: true,
        compute: () => runAt(speed).ve,
      },
      {
        what: `residual at ${speed} rpm`,
        value: residual,
        unit: '',
        decimals: 3,
        within: 0.012,
        compute: () => runAt(speed).residual,
      },
      {
        what: `pumping at ${speed} rpm`,
        value: pmep,
        unit: 'bar',
        decimals: 2,
        within: 0.03,
        compute: () => runAt(speed).pmep,
      },
    ]),
    {
      what: 'net mean effective pressure, largest difference over all speeds, either way',
      value: 0,
      unit: '%',
      decimals: 1,
      within: 3,
      aim: true,
      cause:
        'the description leaves the heat capacity of the burned gas open, on which work hangs and filling hardly does',
      compute: () =>
        Math.max(...REFERENCE_TABLE.map(([speed, , , imep]) => 100 * Math.abs(runAt(speed).imep / imep - 1))),
    },
    ...shapeCases,
  ],
};
