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

  it('runs what turns out not to follow from another, and nothing for what does', async () => {
    const { run, begun, end } = handRun();
    const queue = new ForecastQueue(run, {});
    queue.ask('a', job('a'));
    queue.derive('follows', 'a', (curve) => ({ ...curve, combination: 'follows' }), job('follows'));
    queue.derive('does not', 'a', () => null, job('does not'));
    queue.derive('hangs on it', 'does not', (curve) => ({ ...curve, combination: 'hangs on it' }));
    const all = queue.run();
    await settled();
    end[0]();
    await settled();
    expect(begun).toEqual([['a'], ['does not']]);
    expect(queue.complete).toBe(false);
    end[1]();
    await all;
    expect(queue.complete).toBe(true);
    expect(queue.asked).toBe(2);
    const named = ['follows', 'hangs on it'].map((name) => queue.curve(name)?.combination);
    expect(named).toEqual(['follows', 'hangs on it']);
    expect(queue.curve('does not')).not.toBeNull();
  });

  it('takes for lost what would follow from a forecast that an abort kept from being run', async () => {
    const queue = new ForecastQueue(async (jobs) => jobs.map(() => null), {});
    queue.ask('a', job('a'));
    queue.derive('b', 'a', () => null, job('b'));
    queue.derive('c', 'b', (curve) => curve);
    await queue.run();
    expect(queue.asked).toBe(1);
    for (const name of ['a', 'b', 'c']) {
      expect(queue.aborted(name)).toBe(true);
      expect(queue.curve(name)).toBeNull();
    }
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
