import type { RunJobs, StudyJob } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { keptRun } from '../../src/parts/keptRun.ts';
import { PartStore } from '../../src/parts/partStore.ts';
import { world } from '../fakeIo.ts';
import { sampleCurve } from '../sampleCurve.ts';

const job = (rpm: number): StudyJob => ({ combination: {} as StudyJob['combination'], rpm: [rpm] });
const here: RunJobs = async (jobs) => jobs.map(({ rpm }) => sampleCurve(rpm));

describe('keptRun(run, store, shard)', () => {
  it('deals jobs out in turn from round to round, so that rounds of one job fall to each share alike', async () => {
    const tallies = [0, 1].map((index) => ({
      index,
      ...keptRun(here, new PartStore(world().io, [], null), { index, count: 2 }),
    }));
    for (const { run, tally, index } of tallies) {
      const done: boolean[] = [];
      for (const rpm of [3000, 4000, 5000, 6000]) done.push((await run([job(rpm)]))[0] !== null);
      expect(done).toEqual(index === 0 ? [true, false, true, false] : [false, true, false, true]);
      expect(tally).toEqual({ kept: 0, run: 2, others: 2 });
    }
  });

  it('runs the same job twice in one go once, and gives its curve to both', async () => {
    const { run, tally } = keptRun(here, new PartStore(world().io, [], null), null);
    const [first, second] = await run([job(3000), job(3000)]);
    expect(first).toEqual(second);
    expect(first).not.toBeNull();
    expect(tally.run).toBe(1);
  });
});
