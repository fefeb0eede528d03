import { describe, expect, it } from 'vitest';
import { ForecastQueue } from '../../src/studies/forecastQueue.ts';
import type { RunControl, RunJobs, StudyJob } from '../../src/studies/job.ts';
import { bigBlock } from '../support/bigBlock.ts';
import { curveOf } from './fakeCurves.ts';

const job = (name: string): StudyJob => ({ combination: bigBlock({ name }), rpm: [4000] });

/** Jobs that end when told to. */
function handRun(): { run: RunJobs; begun: string[][]; controls: RunControl[]; end: (() => void)[] } {
  const begun: string[][] = [];
  const controls: RunControl[] = [];
  const end: (() => void)[] = [];
  const run: RunJobs = (jobs, control = {}) => {
    begun.push(jobs.map(({ combination }) => combination.name));
    controls.push(control);
    return new Promise((resolve) => {
      end.push(() => resolve(jobs.map(({ rpm }) => curveOf(rpm, () => 300))));
    });
  };
  return { run, begun, controls, end };
}

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

describe('ForecastQueue', () => {
  it('begins what is waiting, and what is asked for meanwhile once there is room or the first is done', async () => {
    const { run, begun, controls, end } = handRun();
    const told: number[] = [];
    const queue = new ForecastQueue(run, { onProgress: (done) => told.push(done) });
    queue.ask('a', job('a'));
    queue.begin();
    expect(begun).toEqual([['a']]);
    queue.ask('b', job('b'));
    queue.begin();
    await settled();
    expect(begun).toHaveLength(1);
    controls[0].onRoom?.();
    await settled();
    expect(begun).toEqual([['a'], ['b']]);
    queue.ask('c', job('c'));
    const all = queue.run();
    expect(queue.complete).toBe(false);
    controls[1].onProgress?.(1, 1);
    controls[0].onProgress?.(1, 1);
    end[1]();
    await settled();
    expect(begun).toEqual([['a'], ['b'], ['c']]);
    end[0]();
    end[2]();
    await all;
    expect(told).toEqual([1, 2]);
    expect(queue.complete).toBe(true);
    expect(['a', 'b', 'c'].map((name) => queue.meanPower(name))).not.toContain(null);
  });

  it('hands on a failure of what was begun to whoever waits for it', async () => {
    const queue = new ForecastQueue(async () => {
      throw new Error('no thread');
    }, {});
    queue.ask('a', job('a'));
    queue.begin();
    await settled();
    await expect(queue.run()).rejects.toThrow('no thread');
  });
});
