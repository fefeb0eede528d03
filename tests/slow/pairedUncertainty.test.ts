/** The spread of a gain from a few dozen forecasts, against two hundred draws of everything at once run for real. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readDocument } from '../../packages/core/src/combination/readDocument.ts';
import { randomFrom } from '../../packages/core/src/numerics/random.ts';
import { applyChanges } from '../../packages/core/src/study/applyChanges.ts';
import { assignedValues } from '../../packages/core/src/study/assignedValues.ts';
import { type Baseline, pinBaseline } from '../../packages/core/src/study/baseline.ts';
import type { Change } from '../../packages/core/src/study/change.ts';
import { ForecastQueue } from '../../packages/core/src/study/forecastQueue.ts';
import { runJob, runJobsHere, type StudyJob } from '../../packages/core/src/study/job.ts';
import { pairedDraws, spreadOf } from '../../packages/core/src/study/pairedDraws.ts';
import { perturbed } from '../../packages/core/src/study/perturbed.ts';
import { askFirst, measureResponses, type ResponseWorld } from '../../packages/core/src/study/responses.ts';
import { type Unknown, unknownsOf } from '../../packages/core/src/study/unknowns.ts';

/** Two speeds and a coarse mesh, alike for both methods: what is compared is how they draw. */
const RPM = [3800, 5200];
const MESH = { intakeCell: 0.06, exhaustCell: 0.15 };
const DRAWS = 200;

const CARBURETOR: Change = {
  name: 'carburetor',
  edits: [{ kind: 'set', path: 'induction.carburetor.rating', value: '350 cfm' }],
  cost: null,
  hours: null,
  reversible: true,
  insteadOf: null,
};

function minimumBaseline(): Baseline {
  const text = readFileSync(new URL('../../examples/minimum/engine.yaml', import.meta.url), 'utf8');
  const read = readDocument(text);
  const pinned = read.ok ? pinBaseline(read.document) : read;
  if (!pinned.ok) throw new Error('the example can not be read');
  return pinned.baseline;
}

const jobOf = (combination: StudyJob['combination']): StudyJob => ({ combination, rpm: RPM, mesh: MESH });

async function fastSigma(baseline: Baseline, unknowns: readonly Unknown[]): Promise<number> {
  const queue = new ForecastQueue(runJobsHere, {});
  const world: ResponseWorld = {
    unknowns,
    singly: [],
    changes: [CARBURETOR],
    seed: 1,
    queue,
    build: (changes, offsets) => perturbed(baseline, changes, offsets, undefined),
    ask: (name, combination) => queue.ask(name, jobOf(combination)),
  };
  askFirst(world);
  const { baseline: base, candidates } = await measureResponses(world);
  if (base === null || candidates[0] === null) throw new Error('not measured');
  return spreadOf(pairedDraws(base, [candidates[0]], { seed: 1 }).gains[0]);
}

function drawnSigma(baseline: Baseline, unknowns: readonly Unknown[]): number {
  const { normal } = randomFrom(20);
  const gains: number[] = [];
  const power = (combination: StudyJob['combination']): number =>
    runJob(jobOf(combination)).points.reduce((sum, { powerKw }) => sum + powerKw, 0);
  while (gains.length < DRAWS) {
    const offsets = unknowns.map((unknown) => ({ unknown, z: normal() }));
    const before = perturbed(baseline, [], offsets, undefined);
    const after = perturbed(baseline, [CARBURETOR], offsets, undefined);
    // A draw that makes no engine, a throat larger than its valve, is none.
    if (before === null || after === null) continue;
    gains.push(100 * (power(after) / power(before) - 1));
  }
  return spreadOf(Float64Array.from(gains));
}

describe('the spread of a gain by paired draws on response surfaces', () => {
  it('agrees within 15 % with draws of every unknown at once, each run for real', async () => {
    const baseline = minimumBaseline();
    const result = applyChanges(baseline, [CARBURETOR]);
    if (!result.ok) throw new Error('the change does not fit');
    const values = assignedValues(baseline, [CARBURETOR], []);
    const { all } = unknownsOf(baseline, [{ change: CARBURETOR, combination: result.combination, values }]);
    expect(all.length).toBeGreaterThan(40);
    const fast = await fastSigma(baseline, all);
    const drawn = drawnSigma(baseline, all);
    expect(Math.abs(fast / drawn - 1), `fast ${fast.toFixed(3)} %, drawn ${drawn.toFixed(3)} %`).toBeLessThan(
      0.15,
    );
  });
});
