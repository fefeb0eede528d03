/** Knobs found again from pulls made of true forecasts: fifty cases drawn from all that is believed, through a response taken once; one case through and through. */
import { beforeAll, describe, expect, it } from 'vitest';
import { calibrate } from '../../packages/core/src/calibration/calibrate.ts';
import type { CalibrationResult } from '../../packages/core/src/calibration/calibrationResult.ts';
import { MODEL_ERROR } from '../../packages/core/src/calibration/calibrationTarget.ts';
import { DEFAULT_KNOBS, type KnobName, knobsOf } from '../../packages/core/src/calibration/knobs.ts';
import { sheetTarget } from '../../packages/core/src/calibration/sheetTarget.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { monotoneCubic } from '../../packages/core/src/numerics/interpolate.ts';
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
const PATHS = {
  flow: 'heads.intake.flowMultiplier',
  metering: 'induction.flowMultiplier',
  heat: 'heat.multiplier',
  friction: 'friction.multiplier',
  length: 'induction.runner.lengthMultiplier',
} as const;
/** Knobs in the order of {@link Knobs}. */
const ORDER = ['flow', 'heat', 'friction', 'length', 'metering'] as const;
type Fitted = (typeof ORDER)[number];

/** Where the response is taken beside one: over all that is believed of each knob, closer where its effect bends. */
const TAKEN: Readonly<Record<Fitted, readonly number[]>> = {
  flow: [-0.19, 0.19],
  metering: [-0.3, 0.3],
  heat: [0.3],
  friction: [0.24],
  length: [-0.4, -0.2, -0.1, 0.1, 0.2, 0.4],
};

/** What each knob is off by, and what the dyno reads. */
type Truth = Readonly<Record<Fitted, number>>;

function combinationAt(knobs: Partial<Truth>): Combination {
  const document = ORDER.reduce(
    (edited, name) => editDocument(edited, PATHS[name], 1 + (knobs[name] ?? 0)),
    minimumDocument(),
  );
  const read = resolveDocument(document);
  if (!read.ok) throw new Error(read.problems[0].message);
  return { ...read.value, correction: 'none' };
}

/** Truth and fit are forecast alike, so that both may be quick. */
function torqueAt(knobs: Partial<Truth>): readonly number[] {
  const { points } = wholeForecast(combinationAt(knobs), { rpm: SPEEDS, onlyCompared: true });
  return points.map((point) => point.torqueNm);
}

const runCompared: RunJobs = (jobs, control) =>
  runJobsHere(
    jobs.map((job) => ({ ...job, onlyCompared: true })),
    control,
  );

/** Each speed's torque by each knob, from thirteen forecasts; what two knobs do together is left out. */
function takeResponse(): Response {
  const base = torqueAt({});
  const curves = ORDER.map((name) => {
    const taken = [
      ...TAKEN[name].map((off) => ({ off, torque: torqueAt({ [name]: off }) })),
      { off: 0, torque: base },
    ];
    taken.sort((a, b) => a.off - b.off);
    return SPEEDS.map((_, i) =>
      monotoneCubic(
        taken.map(({ off }) => off),
        taken.map(({ torque }) => torque[i]),
      ),
    );
  });
  return (rpm, knobs) => {
    const i = SPEEDS.indexOf(rpm);
    return knobs.reduce<number>(
      (torque, off = 0, k) => torque + curves[k][i].valueAt(off) - base[i],
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

/** Errors over stated standard deviations, by knob. */
function errorsOf({ knobs }: CalibrationResult, truth: Truth, reads = 1): ReadonlyMap<KnobName, number> {
  const at = (name: KnobName): number =>
    name === 'dyno'
      ? reads
      : 1 + (ORDER.find((other) => other === name) === undefined ? 0 : truth[name as Fitted]);
  return new Map(knobs.map((knob) => [knob.name, (knob.after - at(knob.name)) / knob.spread]));
}

describe('calibration on true forecasts of the smallest file', () => {
  let response: Response;
  let base: Combination;
  beforeAll(() => {
    base = minimumCombination();
    response = takeResponse();
  }, 600_000);

  it('recovers each knob within two standard deviations in at least 45 of 50 seeded cases, all six in 38', async () => {
    const believed = knobsOf(DEFAULT_KNOBS, minimumDocument(), base.assumed);
    const within = new Map(believed.map(({ name }) => [name, 0]));
    let together = 0;
    for (let seed = 101; seed <= 150; seed += 1) {
      const random = randomFrom(seed);
      const drawn = believed.map(({ name, value, spread, min, max }): [KnobName, number] => {
        for (;;) {
          const there = value + spread * random.normal();
          if (there > min && there < max) return [name, there];
        }
      });
      const of = (name: KnobName): number => (new Map(drawn).get(name) ?? 1) - 1;
      const truth: Truth = {
        flow: of('flow'),
        heat: of('heat'),
        friction: of('friction'),
        length: of('length'),
        metering: of('metering'),
      };
      const reads = 1 + of('dyno');
      const knobs = [truth.flow, truth.heat, truth.friction, truth.length, truth.metering] as const;
      const result = await fitted(
        pulls((i) => reads * response(SPEEDS[i], knobs), random),
        runResponse(response, base),
      );
      const errors = errorsOf(result, truth, reads);
      for (const [name, error] of errors)
        if (Math.abs(error) <= 2) within.set(name, (within.get(name) ?? 0) + 1);
      if ([...errors.values()].every((error) => Math.abs(error) <= 2)) together += 1;
    }
    for (const [name, cases] of within) expect(cases, name).toBeGreaterThanOrEqual(45);
    // Exact deviations of independent knobs would all hold in 0.954^6 = 75 % of cases: 38 of 50.
    expect(together).toBeGreaterThanOrEqual(38);
  }, 600_000);

  it('does so through and through: pull and fit by forecasts, no stand-in', async () => {
    const truth: Truth = { flow: -0.06, heat: 0.08, friction: 0.05, length: 0.02, metering: 0.05 };
    const torque = torqueAt(truth);
    const result = await fitted(
      pulls((i) => torque[i], randomFrom(7)),
      runCompared,
    );
    expect(result.outcome).toBe('fitted');
    expect(result.error.after).toBeLessThan(result.error.before);
    for (const [name, error] of errorsOf(result, truth)) expect(Math.abs(error), name).toBeLessThan(2);
    const flow = result.knobs.find((knob) => knob.name === 'flow');
    expect(flow?.spread).toBeLessThan(0.6 * (flow?.spreadBefore ?? 0));
  }, 600_000);
});
