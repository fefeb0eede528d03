/** The spread of a gain from a few dozen forecasts, against two hundred draws of everything at once, each run for real. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../packages/core/src/changes/applyChanges.ts';
import { assignedValues } from '../../packages/core/src/changes/assignedValues.ts';
import { type Baseline, pinBaseline } from '../../packages/core/src/changes/baseline.ts';
import type { Change } from '../../packages/core/src/changes/change.ts';
import type { Curve } from '../../packages/core/src/forecast/curve.ts';
import { marchedPoints } from '../../packages/core/src/forecast/wholeCurve.ts';
import { randomFrom } from '../../packages/core/src/numerics/random.ts';
import { standardDeviation } from '../../packages/core/src/numerics/standardDeviation.ts';
import { readDocument } from '../../packages/core/src/reading/readDocument.ts';
import { ForecastQueue } from '../../packages/core/src/studies/forecastQueue.ts';
import { type RunJobs, runJob, type StudyJob } from '../../packages/core/src/studies/job.ts';
import { askFirst, type ResponseWorld } from '../../packages/core/src/uncertainty/askedForecasts.ts';
import { heldWithin } from '../../packages/core/src/uncertainty/heldWithin.ts';
import { pairedDraws } from '../../packages/core/src/uncertainty/pairedDraws.ts';
import { type Offset, perturbed } from '../../packages/core/src/uncertainty/perturbed.ts';
import { reaches } from '../../packages/core/src/uncertainty/reaches.ts';
import { measureResponses } from '../../packages/core/src/uncertainty/responses.ts';
import { COARSE } from '../../packages/core/src/uncertainty/responseWorld.ts';
import type { Unknown } from '../../packages/core/src/uncertainty/unknown.ts';
import { unknownsOf } from '../../packages/core/src/uncertainty/unknowns.ts';

/** Two speeds, coarsely, alike for both methods: what is compared is how they draw. */
const RPM = [3800, 5200];
const DRAWS = 200;
/** Of the fast one, which runs a handful of draws for what responses don't show: alone they know a spread to a fifth. */
const SEEDS = [1, 2, 3, 4];

const change = (name: string, path: string, value: number | string): Change => ({
  name,
  edits: [{ kind: 'set', path, value }],
  cost: null,
  hours: null,
  reversible: true,
  insteadOf: null,
});

/** One whose gain hangs on a rating known to 15 %, along a bend, and one whose gain hangs on a dozen things a little. */
const CHANGES: readonly Change[] = [
  change('carburetor', 'induction.carburetor.rating', '350 cfm'),
  change('rockers', 'valvetrain.intakeRatio', 1.6),
];

function minimumBaseline(): Baseline {
  const text = readFileSync(new URL('../../examples/minimum/engine.yaml', import.meta.url), 'utf8');
  const read = readDocument(text);
  const pinned = read.ok ? pinBaseline(read.value) : read;
  if (!pinned.ok) throw new Error('the example can not be read');
  return pinned.value;
}

const jobOf = (combination: StudyJob['combination']): StudyJob => ({ combination, rpm: RPM, ...COARSE });

/** Of the gain of each change in mean power, then at each speed [%]. */
type Sigmas = readonly (readonly number[])[];

/** What was run already; seeds share all but their draws. */
const curves = new Map<string, Curve>();
const runOnce: RunJobs = async (jobs, control) => {
  const found: (Curve | null)[] = [];
  for (const [i, job] of jobs.entries()) {
    const key = JSON.stringify(job);
    const curve = curves.get(key) ?? runJob(job);
    curves.set(key, curve);
    found.push(curve);
    control?.onCurve?.(curve, i);
  }
  return found;
};

async function fastSigmas(baseline: Baseline, unknowns: readonly Unknown[], seed: number): Promise<Sigmas> {
  const queue = new ForecastQueue(runOnce, {});
  const world: ResponseWorld = {
    unknowns,
    singly: [],
    changes: CHANGES,
    seed,
    ownVariance: () => 0,
    queue,
    build: (changes, offsets) => perturbed(baseline, changes, offsets, undefined),
    ask: (name, combination) => queue.ask(name, jobOf(combination)),
  };
  askFirst(world);
  const responses = await measureResponses(world);
  const sigmas = [responses, ...responses.bySpeed].map(({ baseline: base, candidates }) => {
    const subjects = candidates.filter((subject) => subject !== null);
    if (base === null || subjects.length < CHANGES.length) throw new Error('not measured');
    return pairedDraws(base, subjects, { seed }).gains.map(standardDeviation);
  });
  return CHANGES.map((_, i) => sigmas.map((of) => of[i]));
}

async function drawnGains(
  baseline: Baseline,
  unknowns: readonly Unknown[],
): Promise<readonly (readonly Float64Array[])[]> {
  const { normal } = randomFrom(20);
  const build = (changes: readonly Change[], offsets: readonly Offset[]): StudyJob['combination'] | null =>
    perturbed(baseline, changes, offsets, undefined);
  const reach = await reaches({ unknowns, changes: CHANGES, build });
  const gains: number[][][] = CHANGES.map(() => [[], ...RPM.map(() => [])]);
  const powers = (combination: StudyJob['combination']): readonly number[] => {
    const kw = marchedPoints(runJob(jobOf(combination))).map(({ powerKw }) => powerKw);
    return [kw.reduce((sum, power) => sum + power, 0), ...kw];
  };
  while (gains[0][0].length < DRAWS) {
    const offsets = unknowns.map((unknown) => ({ unknown, z: heldWithin(reach.get(unknown.id), normal()) }));
    const before = build([], offsets);
    const after = CHANGES.map((one) => build([one], offsets));
    const whole = after.filter((combination) => combination !== null);
    // A draw that makes no engine, a throat larger than its valve, is none.
    if (before === null || whole.length < after.length) continue;
    const reference = powers(before);
    const moved = whole.map(powers);
    // Nor is one of which a speed could not be marched.
    if ([reference, ...moved].some((one) => one.length < 1 + RPM.length)) continue;
    moved.forEach((one, i) => {
      one.forEach((power, at) => {
        gains[i][at].push(100 * (power / reference[at] - 1));
      });
    });
  }
  return gains.map((of) => of.map((values) => Float64Array.from(values)));
}

/** Standard error of a spread over itself [-]: ((k - 1) / 4 N)^0.5 for draws of kurtosis k, 3 where they are normal. */
function errorOf(values: Float64Array): number {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  const moment = (power: number): number =>
    values.reduce((sum, v) => sum + (v - mean) ** power, 0) / values.length;
  return Math.sqrt((moment(4) / moment(2) ** 2 - 1) / (4 * values.length));
}

describe('the spread of a gain by paired draws on response surfaces', () => {
  it('agrees within 15 %, within a third at one speed, and what two hundred draws leave open, with draws of every unknown at once, each run for real', async () => {
    const baseline = minimumBaseline();
    const applied = CHANGES.map((one) => {
      const result = applyChanges(baseline, [one]);
      if (!result.ok) throw new Error('the change does not fit');
      return { change: one, combination: result.value, values: assignedValues(baseline, [one], []) };
    });
    const { all } = unknownsOf(baseline, applied);
    expect(all.length).toBeGreaterThan(40);
    const seeded: Sigmas[] = [];
    for (const seed of SEEDS) seeded.push(await fastSigmas(baseline, all, seed));
    const drawn = await drawnGains(baseline, all);
    CHANGES.forEach(({ name }, i) => {
      ['the mean', ...RPM].forEach((where, at) => {
        const [one, other] = [
          Math.hypot(...seeded.map((fast) => fast[i][at])) / Math.sqrt(SEEDS.length),
          standardDeviation(drawn[i][at]),
        ];
        const figures = `${name}, ${where}: fast ${one.toFixed(3)} %, drawn ${other.toFixed(3)} %`;
        // Two hundred draws know a spread to 5 %, and to more where a few of them lie far out, as gains do: another seed gave
        // 0.243 % where this one gives 0.306.
        // At one speed the fast one has only its few draws of everything for what no response shows there, and knows it to a third.
        const within = at === 0 ? 0.15 : 0.33;
        expect.soft(Math.abs(one / other - 1), figures).toBeLessThan(within + errorOf(drawn[i][at]));
      });
    });
  }, 1_200_000);
});
