import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/changes/change.ts';
import { gainSpread } from '../../src/ranking/gainSpread.ts';
import { losing, runnerOf } from '../studies/fakeCurves.ts';
import { minimumBaseline } from '../support/knobResponse.ts';

const band = { fromRpm: 3000, toRpm: 6000 };
const milled: Change = {
  name: 'mill the head',
  edits: [{ kind: 'set', path: 'chamber.compression', value: 10.5 }],
  cost: null,
  hours: null,
  reversible: false,
  insteadOf: null,
};
/** Four percent for a point of compression. */
const run = runnerOf(({ chamber }) => 100 * (1 + 0.04 * (chamber.compressionRatio - 9.5)));

describe('the spread of one gain', () => {
  it('is found where every speed was marched', async () => {
    const spread = await gainSpread(minimumBaseline(), milled, band, { run });
    expect(spread?.band).toBeGreaterThanOrEqual(0);
    expect(spread?.band).toBeLessThan(0.02);
  });

  it('is none where a speed of the engine as it is was lost', async () => {
    const spread = await gainSpread(minimumBaseline(), milled, band, { run: losing(run, 4500) });
    expect(spread).toMatchObject({ band: null });
  });

  it('is none where a speed of the changed engine was lost', async () => {
    const lossy = losing(run, 4500, ({ chamber }) => chamber.compressionRatio > 10);
    expect(await gainSpread(minimumBaseline(), milled, band, { run: lossy })).toMatchObject({ band: null });
  });
});
