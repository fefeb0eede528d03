/** Knobs found again from pulls made of true forecasts: fifty cases through a response taken once, one case through and through. */
import { beforeAll, describe, expect, it } from 'vitest';
import { calibrate } from '../../packages/core/src/calibration/calibrate.ts';
import type { CalibrationResult } from '../../packages/core/src/calibration/calibrationResult.ts';
import { MODEL_ERROR, sheetTarget } from '../../packages/core/src/calibration/calibrationTarget.ts';
import { DYNO_SPREAD, type KnobName } from '../../packages/core/src/calibration/knobs.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { type Random, randomFrom } from '../../packages/core/src/numerics/random.ts';
import { editDocument } from '../../packages/core/src/reading/editDocument.ts';
import { resolveDocument } from '../../packages/core/src/reading/resolveDocument.ts';
import { type RunJobs, runJobsHere } from '../../packages/core/src/studies/job.ts';
import { wholeForecast } from '../../packages/core/test/forecast/wholeForecast.ts';
import {
  minimumBaseline,
  minimumCombination,
  minimumDocument,
  type Response,
  runResponse,
  sheetOf,
} from '../../packages/core/test/support/knobResponse.ts';

const SPEEDS = [2500, 3500, 4500, 5250, 6000, 6500];
const ORDER: readonly KnobName[] = ['flow', 'heat', 'friction', 'length', 'metering'];
const PATHS = [
  'heads.intake.flowMultiplier',
  'heat.multiplier',
  'friction.multiplier',
  'induction.runner.lengthMultiplier',
  'induction.flowMultiplier',
];
const BELIEVED = [0.08, 0.15, 0.12, 0.04, 0.15];
const REACH = [0.12, 0.15, 0.15, 0.06, 0.15];

/** Every knob of the engine. */
type All = readonly [number, number, number, number, number];

function combinationAt(knobs: All): Combination {
  const document = knobs.reduce(
    (edited, off, i) => editDocument(edited, PATHS[i], 1 + off),
    minimumDocument(),
  );
  const read = resolveDocument(document);
  if (!read.ok) throw new Error(read.problems[0].message);
  return { ...read.value, correction: 'none' };
}

function torqueAt(knobs: All): readonly number[] {
  return wholeForecast(combinationAt(knobs), { rpm: SPEEDS }).points.map((point) => point.torqueNm);
}

/** Base, slope and bend of each speed's torque by each knob, from eleven forecasts. */
function takeResponse(): Response {
  const base = torqueAt([0, 0, 0, 0, 0]);
  const sides = ORDER.map((_, k) => {
    const at = (sign: number): All => {
      const off = [0, 0, 0, 0, 0];
      off[k] = sign * REACH[k];
      return [off[0], off[1], off[2], off[3], off[4]];
    };
    const up = torqueAt(at(1));
    const down = torqueAt(at(-1));
    return base.map((torque, i) => ({
      slope: (up[i] - down[i]) / (2 * REACH[k]),
      bend: (up[i] + down[i] - 2 * torque) / (2 * REACH[k] ** 2),
    }));
  });
  return (rpm, knobs) => {
    const i = SPEEDS.indexOf(rpm);
    return knobs.reduce<number>(
      (torque, off = 0, k) => torque + sides[k][i].slope * off + sides[k][i].bend * off * off,
      base[i],
    );
  };
}

function pulls(torque: (i: number) => number, random: Random) {
  const error = SPEEDS.map(() => MODEL_ERROR * random.normal());
  return sheetOf(
    [1, 2, 3].map(() =>
      SPEEDS.map((rpm, i) => [rpm, torque(i) * (1 + error[i] + 0.005 * random.normal())] as const),
    ),
  );
}

async function fitted(sheet: ReturnType<typeof sheetOf>, run: RunJobs): Promise<CalibrationResult> {
  const done = await calibrate(minimumBaseline(), sheetTarget(sheet), { run });
  if (!done.ok) throw new Error(done.problems[0].message);
  return done.value.result;
}

/** Errors over stated standard deviations. */
function errorsOf({ knobs }: CalibrationResult, truth: All, reads = 1): number[] {
  const at = (name: KnobName): number => (name === 'dyno' ? reads : 1 + truth[ORDER.indexOf(name)]);
  return knobs.map((knob) => (knob.after - at(knob.name)) / knob.spread);
}

describe('calibration on true forecasts of the smallest file', () => {
  let response: Response;
  let base: Combination;
  beforeAll(() => {
    base = minimumCombination();
    response = takeResponse();
  }, 600_000);

  // The flow of carburetor or throttle is missed: 41 of 50. Its effect grows as it closes, so that the spread worked out where the fit
  // ends is too small where the truth lies on the other side. The rest hold.
  it('recovers each knob but that of metering within two standard deviations in at least 45 of 50 seeded cases', async () => {
    const within = [...ORDER, 'dyno'].map(() => 0);
    let together = 0;
    for (let seed = 101; seed <= 150; seed += 1) {
      const random = randomFrom(seed);
      const draw = (k: number): number => {
        for (;;) {
          const value = BELIEVED[k] * random.normal();
          if (Math.abs(value) < 0.19) return value;
        }
      };
      const truth: All = [draw(0), draw(1), draw(2), draw(3), draw(4)];
      const reads = 1 + DYNO_SPREAD * random.normal();
      const result = await fitted(
        pulls((i) => reads * response(SPEEDS[i], truth), random),
        runResponse(response, base),
      );
      const errors = errorsOf(result, truth, reads);
      errors.forEach((error, i) => {
        if (Math.abs(error) <= 2) within[i] += 1;
      });
      if (errors.every((error) => Math.abs(error) <= 2)) together += 1;
    }
    const metering = ORDER.indexOf('metering');
    within.forEach((cases, k) => {
      if (k !== metering) expect(cases, ORDER[k] ?? 'dyno').toBeGreaterThanOrEqual(45);
    });
    expect(within[metering]).toBeGreaterThanOrEqual(40);
    expect(together).toBeGreaterThanOrEqual(37);
  }, 600_000);

  it('does so through and through: pull and fit by forecasts, no stand-in', async () => {
    const truth: All = [-0.06, 0.08, 0.05, 0.02, 0.05];
    const torque = torqueAt(truth);
    const result = await fitted(
      pulls((i) => torque[i], randomFrom(7)),
      runJobsHere,
    );
    expect(result.outcome).toBe('fitted');
    expect(result.error.after).toBeLessThan(result.error.before);
    for (const error of errorsOf(result, truth)) expect(Math.abs(error)).toBeLessThan(2);
    const flow = result.knobs.find((knob) => knob.name === 'flow');
    expect(flow?.spread).toBeLessThan(0.6 * (flow?.spreadBefore ?? 0));
  }, 600_000);
});
