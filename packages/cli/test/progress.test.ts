import { describe, expect, it } from 'vitest';
import { studyProgress } from '../src/output/progress.ts';
import { world } from './fakeIo.ts';

describe('progress of a study', () => {
  it.each([
    [1_000, 'a few seconds'],
    [6_000, 'about 50 s'],
    [40_000, 'about 6 min'],
  ])('reckons what is left from what was done: %d ms a forecast, %s', (each, left) => {
    let time = 0;
    const w = world({ stderrIsTTY: true, now: () => time });
    const { report } = studyProgress(w.io, 'normal');
    time = each;
    report(1, 10);
    expect(w.err()).toBe(`\r1 of 10 forecasts, ${left} left`);
  });

  it.each([
    ['a log', {}],
    ['a terminal that can draw nothing over', { stderrIsTTY: true, env: { TERM: 'dumb' } }],
  ])('comes once a minute in %s, and never in the first', (_where, options) => {
    let time = 0;
    const w = world({ ...options, now: () => time });
    const { report, clear } = studyProgress(w.io, 'normal');
    for (let done = 1; done <= 20; done++) {
      time = done * 10_000;
      report(done, 20);
    }
    clear();
    expect(w.err()).toBe(
      '6 of 20 forecasts, about 2 min left\n12 of 20 forecasts, about 80 s left\n18 of 20 forecasts, about 20 s left\n',
    );
  });

  it('stays silent where that is asked for', () => {
    let time = 0;
    for (const stderrIsTTY of [true, false]) {
      const w = world({ stderrIsTTY, now: () => time });
      const { report } = studyProgress(w.io, 'quiet');
      time += 100_000;
      report(1, 2);
      expect(w.err()).toBe('');
    }
  });
});
