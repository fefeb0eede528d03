import { describe, expect, it } from 'vitest';
import { studyProgress } from '../src/output/studyProgress.ts';
import { world } from './fakeIo.ts';

describe('progress of a study', () => {
  it.each([
    [1_000, 'a few seconds'],
    [6_000, 'about 50 s'],
    [40_000, 'about 6 min'],
  ])('reckons what is left from what was done: %d ms a forecast, %s', (each, left) => {
    let time = 0;
    const w = world({ stderrIsTTY: true });
    const { report } = studyProgress(w.io, false, () => time);
    time = each;
    report(1, 10);
    expect(w.err()).toBe(`\r1 of 10 forecasts, ${left} left`);
  });

  it('stays silent where nobody watches, or wants it', () => {
    for (const w of [world({}), world({ stderrIsTTY: true, env: { TERM: 'dumb' } })]) {
      studyProgress(w.io, false).report(1, 2);
      expect(w.err()).toBe('');
    }
    const quiet = world({ stderrIsTTY: true });
    studyProgress(quiet.io, true).report(1, 2);
    expect(quiet.err()).toBe('');
  });
});
