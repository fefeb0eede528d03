import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { readCombination, type StudyJob } from '@valvetide/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { forecastOn } from '../../src/workers/forecastOn.ts';
import { type JobRunner, openRunner } from '../../src/workers/jobRunner.ts';
import { type BundledWorker, bundledWorker } from './bundledWorker.ts';

/** Single cells march fast: threads are under test, not the curve. */
const MESH = { intakeCell: 0, exhaustCell: 0 };

function jobs(speeds: readonly number[]): StudyJob[] {
  const text = readFileSync(new URL('../../../../examples/minimum/engine.yaml', import.meta.url), 'utf8');
  const read = readCombination(text);
  if (!read.ok) throw new Error('the example does not read');
  return speeds.map((rpm) => ({ combination: read.value, rpm: [rpm], mesh: MESH }));
}

describe('jobs on threads', () => {
  let worker: BundledWorker;
  let four: JobRunner;
  beforeAll(async () => {
    worker = await bundledWorker();
    four = await openRunner(4, { worker: worker.url });
  }, 120_000);
  afterAll(async () => {
    await four.close();
    worker.remove();
  });

  it('give the same bytes on one worker and on four, in the order of the jobs', async () => {
    const asked = jobs([2000, 3000, 4000, 5000, 6000]);
    const here = await (await openRunner(1)).run(asked);
    const there = await four.run(asked);
    expect(JSON.stringify(there)).toBe(JSON.stringify(here));
    expect(there.map((curve) => curve?.points[0].rpm)).toEqual([2000, 3000, 4000, 5000, 6000]);
  }, 120_000);

  it('share the speeds of a forecast and give its bytes, what was heard of knock included', async () => {
    const [{ combination: engine }] = jobs([3000]);
    const heard = [{ rpm: 3000, advance: 30, knock: 'none', octane: null } as const];
    const combination = { ...engine, burn: { ...engine.burn, heard } };
    const options = { rpm: [4000, 9000], onProgress: () => {} };
    const alone = await forecastOn(openRunner, 1, combination, options);
    expect(alone?.warnings.map(({ code }) => code)).toContain('heard-knock');
    const shared = await forecastOn((n) => openRunner(n, { worker: worker.url }), 3, combination, options);
    expect(JSON.stringify(shared)).toBe(JSON.stringify(alone));
  }, 60_000);

  it('are handed out whole, the last of them speed by speed, so that no thread waits long for another', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'threads-'));
    const telling = join(folder, 'telling.mjs');
    // In place of cycles: how many speeds came together.
    writeFileSync(
      telling,
      `export function work({ rpm }) {
        const points = rpm.map((n) => ({ status: 'lost', rpm: n, code: 'lost', reason: '', cycles: rpm.length }));
        return { fidelity: 'representative', complete: true, points, warnings: [] };
      }\n`,
    );
    const runner = await openRunner(2, { worker: pathToFileURL(telling) });
    try {
      const asked = jobs([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]).map((job) => ({ ...job, rpm: [3000, 4000, 5000] }));
      const curves = await runner.run(asked);
      const together = curves.map((curve) => curve?.points.map(({ cycles }) => cycles));
      expect(together).toEqual(asked.map((_, i) => (i < 2 ? [3, 3, 3] : [1, 1, 1])));
    } finally {
      await runner.close();
      rmSync(folder, { recursive: true });
    }
  }, 60_000);

  it('report each that is done, on any number of workers', async () => {
    for (const runner of [await openRunner(1), four]) {
      const seen: string[] = [];
      await runner.run(jobs([2000, 3000]), {
        onProgress: (done, total) => void seen.push(`${done} of ${total}`),
      });
      expect(seen).toEqual(['1 of 2', '2 of 2']);
    }
  }, 60_000);

  it.each([1, 2])(
    'on %d stop when asked, and keep what is done',
    async (workers) => {
      const stop = new AbortController();
      const runner = await openRunner(workers, { worker: worker.url });
      try {
        const curves = await runner.run(jobs([2000, 3000, 4000, 5000, 6000, 7000]), {
          signal: stop.signal,
          onProgress: () => stop.abort(),
        });
        const done = curves.filter((curve) => curve !== null).length;
        expect(done).toBeGreaterThanOrEqual(1);
        expect(done).toBeLessThanOrEqual(workers);
        expect(await runner.run(jobs([2000]), { signal: stop.signal })).toEqual([null]);
      } finally {
        await runner.close();
      }
    },
    60_000,
  );

  it('say so where one ends by itself, and wait for nothing', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'valvetide-thread-'));
    const ending = join(folder, 'ending.mjs');
    writeFileSync(ending, 'export function work() { process.exit(7); }\n');
    const runner = await openRunner(2, { worker: pathToFileURL(ending) });
    try {
      await expect(runner.run(jobs([3000, 4000]))).rejects.toThrow('a thread ended by itself, with code 7');
    } finally {
      await runner.close();
      rmSync(folder, { recursive: true, force: true });
    }
  }, 60_000);

  it('pass on what goes wrong in a job', async () => {
    await expect(four.run(jobs([50, 3000]))).rejects.toThrow('rpm[0] must be in [100, 30000] 1/min');
  }, 60_000);
});
