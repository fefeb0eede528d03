import { describe, expect, it } from 'vitest';
import type { RunJobs } from '../../src/studies/job.ts';
import { altered, runnerOf } from '../studies/fakeCurves.ts';

import { additive, change, HEADER, MILL, ranked, scale, set } from './rankedEngine.ts';

describe('the best set of rank(baseline, changes, options)', () => {
  it('keeps best set and order of tests to one rule', async () => {
    // 0.06 % by itself: more than nothing, and not worth a bolt.
    const rod = change('rod', [scale('heat.multiplier', 0.988)]);
    const { best, order } = await ranked([HEADER, MILL, rod]);
    expect(best?.changes).toEqual(['header', 'mill']);
    expect(order.leave.map(({ change: name }) => name)).toEqual(['rod']);
    const named = [...order.steps, ...order.beyond].flatMap(({ change: name }) =>
      name === null ? [] : [name],
    );
    for (const name of best?.changes ?? []) expect(named).toContain(name);
    expect(order.steps.filter(({ inBestSet }) => inBestSet).map(({ change: name }) => name)).toEqual([
      'header',
      'mill',
    ]);
  });

  it('never has in the best set what the fuel forbids, though it gains most', async () => {
    const asking: RunJobs = async (jobs, control) =>
      (await runnerOf(additive)(jobs, control)).map((curve, i) => {
        const octane = 86 + 4 * (jobs[i].combination.chamber.compressionRatio - 9.5);
        return curve === null ? null : altered(curve, () => ({ octaneAtBestTiming: octane }));
      });
    const domed = change('domed', [{ kind: 'add', path: 'chamber.compression', amount: 3 }]);
    const { changes, best, together, order, pairs } = await ranked([HEADER, domed], {}, asking);
    expect(changes[0]).toMatchObject({ name: 'domed', breaches: [{ limit: 'octane', value: 98 }] });
    expect(best?.changes).toEqual(['header']);
    expect(together?.breaches).toHaveLength(1);
    expect(pairs[0].breaches).toHaveLength(1);
    expect(order.leave).toMatchObject([{ change: 'domed', expectedGainPct: expect.closeTo(9, 3) }]);
  });

  it('has in the best set what another change bears, and that one with it though it gains nothing', async () => {
    const asking: RunJobs = async (jobs, control) =>
      (await runnerOf(additive)(jobs, control)).map((curve, i) => {
        const octane = 86 + 4 * (jobs[i].combination.chamber.compressionRatio - 9.5);
        return curve === null ? null : altered(curve, () => ({ octaneAtBestTiming: octane }));
      });
    const domed = change('domed', [{ kind: 'add', path: 'chamber.compression', amount: 3 }]);
    const fuel = change('fuel', [set('fuel', 'race-100')]);
    const { best, order } = await ranked([HEADER, domed, fuel], {}, asking);
    expect([...(best?.changes ?? [])].sort()).toEqual(['domed', 'fuel', 'header']);
    expect(best?.breaches).toEqual([]);
    const tests = order.steps.filter(({ action }) => action === 'test').map((step) => step.change);
    expect(tests.indexOf('fuel')).toBeLessThan(tests.indexOf('domed'));
    expect(order.leave).toEqual([]);
  });
});
