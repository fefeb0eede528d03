import { describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import type { RunJobs, StudyJob } from '../../src/studies/job.ts';
import { runInChunks } from '../../src/studies/runInChunks.ts';
import { curveOf } from './fakeCurves.ts';

const NOTHING = {} as Combination;
const run: RunJobs = async (jobs, control) =>
  jobs.map(({ rpm }, i) => {
    control?.onProgress?.(i + 1, jobs.length);
    return curveOf(rpm, (n) => n);
  });

describe('runInChunks(run, jobs, total, control, take)', () => {
  it('never holds more than a chunk of a hundred thousand jobs', async () => {
    let [made, taken, most, last] = [0, 0, 0, 0];
    const jobs = function* (): Generator<StudyJob> {
      for (let i = 0; i < 100_000; i++) {
        made += 1;
        most = Math.max(most, made - taken);
        yield { combination: NOTHING, rpm: [i + 1] };
      }
    };
    const onProgress = (done: number): void => {
      last = done;
    };
    await runInChunks(run, jobs(), 100_000, { onProgress }, (curve, i) => {
      if (curve?.points[0].rpm === i + 1) taken += 1;
    });
    expect([made, taken, last]).toEqual([100_000, 100_000, 100_000]);
    expect(most).toBeLessThanOrEqual(128);
  });

  it('begins the next chunk where there is room, holds four at the most, and keeps the order', async () => {
    const jobs = Array.from({ length: 2000 }, (_, i): StudyJob => ({ combination: NOTHING, rpm: [i + 1] }));
    let goOn = (): void => {};
    const held = new Promise<void>((resolve) => {
      goOn = resolve;
    });
    const asked: number[] = [];
    const roomy: RunJobs = async (some, control) => {
      asked.push(some.length);
      const curves = run(some, control);
      control?.onRoom?.();
      // The first chunk has a forecast that nobody comes back from for long.
      if (asked.length === 1) await held;
      return curves;
    };
    const seen: number[] = [];
    const ended = runInChunks(roomy, jobs, 2000, {}, (curve) => seen.push(curve?.points[0].rpm ?? 0));
    for (let i = 0; i < 100; i++) await Promise.resolve();
    expect(asked).toEqual([128, 128, 128, 128]);
    expect(seen).toEqual([]);
    goOn();
    await ended;
    expect(seen).toEqual(jobs.map(({ rpm }) => rpm[0]));
  });

  it('ends with the failure of a chunk, and leaves none unmet', async () => {
    const jobs = Array.from({ length: 700 }, (_, i): StudyJob => ({ combination: NOTHING, rpm: [i + 1] }));
    const failing: RunJobs = async (_, control) => {
      control?.onRoom?.();
      throw new Error('no machine left');
    };
    await expect(runInChunks(failing, jobs, 700, {}, () => {})).rejects.toThrow('no machine left');
  });

  it('hands over nothing where a job was left to others, and goes on', async () => {
    const jobs = Array.from({ length: 300 }, (_, i): StudyJob => ({ combination: NOTHING, rpm: [i + 1] }));
    const half: RunJobs = async (some, control) =>
      (await run(some, control)).map((curve, i) => (i % 2 === 0 ? curve : null));
    const seen: (number | null)[] = [];
    await runInChunks(half, jobs, 300, {}, (curve) => seen.push(curve?.points[0].rpm ?? null));
    expect(seen).toHaveLength(300);
    expect(seen.slice(255, 259)).toEqual([null, 257, null, 259]);
  });

  it('makes no more jobs once it is aborted, and hands over what was run', async () => {
    const stop = new AbortController();
    let made = 0;
    const jobs = function* (): Generator<StudyJob> {
      for (; made < 100_000; made++) yield { combination: NOTHING, rpm: [made + 1] };
    };
    const aborting: RunJobs = async (some, control) => {
      const curves = await run(some, control);
      if (made > 200) stop.abort();
      return curves;
    };
    const seen: (number | null)[] = [];
    await runInChunks(aborting, jobs(), 100_000, { signal: stop.signal }, (curve) =>
      seen.push(curve?.points[0].rpm ?? null),
    );
    expect(made).toBe(256);
    expect(seen).toEqual(Array.from({ length: 256 }, (_, i) => i + 1));
  });

  it('makes no job where it is aborted before it begins', async () => {
    const signal = AbortSignal.abort();
    let asked = 0;
    const counted: RunJobs = async (some) => {
      asked += 1;
      return some.map(() => null);
    };
    await runInChunks(counted, [{ combination: NOTHING, rpm: [1000] }], 1, { signal }, () => {});
    expect(asked).toBe(0);
  });
});
