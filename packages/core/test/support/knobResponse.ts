/** A stand-in for forecasts: torque that answers to a combination's knobs by given slopes, at no cost. */
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Combination } from '../../src/combination/combination.ts';
import type { DynoSheet } from '../../src/dyno/dynoSheet.ts';
import type { Pull } from '../../src/dyno/readPull.ts';
import type { CombinationDocument } from '../../src/reading/combinationDocument.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { exampleText } from '../reading/files.ts';
import { curveOf } from '../studies/fakeCurves.ts';

/** Flow, heat, friction, length and metering, less what they are believed to be [-]; without the last it is as believed. */
export type Knobs = readonly [
  flow: number,
  heat: number,
  friction: number,
  length: number,
  metering?: number,
];

/** Torque at a speed and knobs [N m]. */
export type Response = (rpm: number, knobs: Knobs) => number;

export function minimumDocument(): CombinationDocument {
  const read = readDocument(exampleText('minimum'), { file: 'engine.yaml' });
  if (!read.ok) throw new Error('the example is not readable');
  return read.value;
}

/** The minimum example, ready to be changed and calibrated. */
export function minimumBaseline(): Baseline {
  const pinned = pinBaseline(minimumDocument());
  if (!pinned.ok) throw new Error('the example is not sound');
  return pinned.value;
}

export function minimumCombination(): Combination {
  const read = readCombination(exampleText('minimum'));
  if (!read.ok) throw new Error('the example is not sound');
  return read.value;
}

/** How far each knob of a combination is from one. */
export function knobsIn(combination: Combination, base: Combination): Knobs {
  return [
    combination.intake.flow.area[0] / base.intake.flow.area[0] - 1,
    combination.walls.multiplier - 1,
    combination.friction.multiplier - 1,
    combination.induction.runner.lengthMultiplier - 1,
    combination.induction.meteringArea / base.induction.meteringArea - 1,
  ];
}

/** An invented engine: flow tells at the top, metering at the very top, friction with speed, heat everywhere, length around the hump. */
export const INVENTED: Response = (rpm, [flow, heat, friction, length, metering = 0]) => {
  const u = (rpm - 4250) / 1750;
  const hump = 0.06 * Math.exp(-(((rpm - 4500 / (1 + length)) / 500) ** 2));
  const gain =
    flow * (0.25 + 0.35 * u) +
    metering * (0.05 + 0.06 * u * u * u) -
    0.12 * heat -
    friction * (0.13 + 0.06 * u) +
    hump;
  return 170 * (1 - 0.12 * u * u) * (1 + gain);
};

export function runResponse(response: Response, base: Combination, counter = { jobs: 0 }): RunJobs {
  return async (jobs) => {
    counter.jobs += jobs.length;
    return jobs.map(({ combination, rpm }) => curveOf(rpm, (n) => response(n, knobsIn(combination, base))));
  };
}

/** A sheet of pulls at given torques, under J607. */
export function sheetOf(
  pulls: readonly (readonly (readonly [rpm: number, torqueNm: number])[])[],
): DynoSheet {
  return {
    name: 'pull.csv',
    title: null,
    standard: 'J607',
    units: 'trade',
    ignored: [],
    notes: [],
    pulls: pulls.map(
      (points, i): Pull => ({
        name: String(i + 1),
        weather: null,
        points: points.map(([rpm, torqueNm]) => ({
          rpm,
          torqueNm,
          powerKw: (torqueNm * rpm * Math.PI) / 30_000,
          channels: {},
        })),
      }),
    ),
  };
}
