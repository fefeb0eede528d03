import { describe, expect, it } from 'vitest';
import type { Combination } from '../../src/combination/combination.ts';
import { gainVariance } from '../../src/uncertainty/gainError.ts';
import { runnerOf } from '../studies/fakeCurves.ts';

import { BAND, change, HEADER, ranked, scale, sureBaseline } from './rankedEngine.ts';

describe('what rank(baseline, changes, options) says is not known', () => {
  it('has for the spread of a gain what the unknowns of that part bring', async () => {
    const rating = (c: Combination): number => 200 + 1e5 * c.induction.meteringArea;
    const base = sureBaseline();
    const { meteringArea } = base.combination.induction;
    const bigger = change('carburetor', [scale('induction.carburetor.rating', 1.25)]);
    const { changes } = await ranked([bigger], {}, runnerOf(rating));
    // A new carburetor has a rating error of its own, 4 %, and the old one's stays with the old.
    const before = 200 + 1e5 * meteringArea;
    const after = 200 + 1.25e5 * meteringArea;
    const own = (0.04 * 1.25e5 * meteringArea) / before;
    const old = ((0.04 * 1e5 * meteringArea) / before) * (after / before);
    // And the model misses what it misses.
    const spread = 100 * Math.hypot(own, old, Math.sqrt(gainVariance(after / before - 1)));
    expect((changes[0].sigmaPct ?? 0) / spread).toBeGreaterThan(0.96);
    expect((changes[0].sigmaPct ?? 0) / spread).toBeLessThan(1.04);
    expect(changes[0].mattersMost?.path).toBe('induction.carburetor.rating');
    // Its own rating first, then the old one's; the model has the rest.
    const whole = (spread / 100) ** 2;
    expect((changes[0].mattersMost?.share ?? 0) / (own ** 2 / whole)).toBeCloseTo(1, 1);
    expect((changes[0].modelShare ?? 0) / (gainVariance(after / before - 1) / whole)).toBeCloseTo(1, 1);
  });

  it('gives each gain its spread speed by speed, from the same forecasts', async () => {
    const { meteringArea } = sureBaseline().combination.induction;
    const bigger = change('carburetor', [scale('induction.carburetor.rating', 1.25)]);
    const run = runnerOf(
      ({ induction }, n) => 200 + 20 * (induction.meteringArea / meteringArea - 1) * ((n - 2500) / 1000),
    );
    const { changes, spreadRpm, rpm, baseline } = await ranked([bigger], {}, run);
    expect(spreadRpm).toEqual([3500, 4500, 5500]);
    const [{ bySpeed }] = changes;
    expect(bySpeed.map((at) => at.rpm)).toEqual(rpm);
    // Below the band a gain, and no spread.
    expect(bySpeed[0].sigmaNm).toBeNull();
    expect(bySpeed[0].sigmaPct).toBeNull();
    expect(bySpeed[0].gainNm).toBeCloseTo(5 * ((rpm[0] - 2500) / 1000), 9);
    expect(bySpeed[3].rpm).toBe(4500);
    expect(bySpeed[3].gainNm).toBeCloseTo(10, 9);
    expect(bySpeed[3].gainPct).toBeCloseTo(5, 9);
    // Old and new carburetor each err by 4 % of their own, 20 and 25 N m a thousand rpm.
    // The model may miss the gain by one share at all speeds: 2.5, 5 and 7.5 % are moved at the three looked at.
    const missed = 200 * Math.sqrt(gainVariance(0.05 * Math.sqrt((0.5 ** 2 + 1 + 1.5 ** 2) / 3)));
    const each = (thousands: number): number => Math.hypot(0.04 * Math.hypot(20, 25) * thousands, missed);
    const shares = bySpeed.slice(1).map(({ sigmaNm }) => sigmaNm ?? Number.NaN);
    // Held at 3500 below it, straight between, held at 5500 beyond.
    const between = (share: number, from: number): number =>
      each(from) + share * (each(from + 1) - each(from));
    [each(1), between(0.25, 1), each(2), between(0.75, 2), each(3)].forEach((spread, i) => {
      expect(shares[i] / spread, `${i}`).toBeGreaterThan(0.96);
      expect(shares[i] / spread, `${i}`).toBeLessThan(1.04);
    });
    // In percent the old one's error counts by the larger torque: 210 / 200 of it.
    const pct = (100 * Math.hypot(0.04 * 50, 0.04 * 40 * (210 / 200), missed)) / 200;
    expect((bySpeed[3].sigmaPct ?? 0) / pct).toBeGreaterThan(0.96);
    expect((bySpeed[3].sigmaPct ?? 0) / pct).toBeLessThan(1.04);
    // The engine as it is: the old rating's 1.6 N m at 4500.
    const own = baseline?.bySpeed[3];
    expect(own?.torqueNm).toBeCloseTo(200, 9);
    expect((own?.sigmaNm ?? 0) / 1.6).toBeGreaterThan(0.96);
    expect((own?.sigmaNm ?? 0) / 1.6).toBeLessThan(1.04);
    expect(baseline?.bySpeed[0].sigmaNm).toBeNull();
  });

  it('cancels speed by speed what baseline and candidate share, and keeps what differs between speeds from averaging out', async () => {
    // Compression tilts the curve about 4500 rpm: over the band nothing, at its ends 0.75 N m per 0.25.
    const tilt = runnerOf(
      ({ chamber, exhaustSystem }, n) =>
        200 +
        3 * (chamber.compressionRatio - 9.5) * ((n - 4500) / 1000) +
        20 * (exhaustSystem.primary.length / 0.8636 - 1),
    );
    const { changes, baseline } = await ranked([HEADER], {}, tilt);
    const own = baseline?.bySpeed.find(({ rpm }) => rpm === 6000);
    expect(own?.sigmaNm).toBeGreaterThan(0.75 * 0.95);
    expect(own?.sigmaNm).toBeLessThan(0.75 * 1.05);
    // N m of gain are the header's alone, whatever the compression: what is left is the model's own, of 2 %.
    const missed = 200 * Math.sqrt(gainVariance(0.02));
    for (const { rpm, sigmaNm } of changes[0].bySpeed)
      if (rpm >= BAND.fromRpm) expect(Math.abs((sigmaNm ?? 0) / missed - 1), `${rpm}`).toBeLessThan(0.04);
  });

  it('lets an error that baseline and candidate share cancel', async () => {
    const { changes, baseline } = await ranked([HEADER]);
    // 0.25 of compression moves 1.5 N m of 200: 0.75 % of the curve, and of the gain only a 50th.
    expect(baseline?.sigmaPct).toBeGreaterThan(0.7);
    const { sigmaPct, chanceOfGain, chanceResolvable } = changes[0];
    expect(sigmaPct).toBeLessThan(1.04 * Math.hypot(0.03, 100 * Math.sqrt(gainVariance(0.02))));
    // 2 % are 2.8 of its deviations, and 1.7 above the 0.8 % that the dyno can tell.
    expect(chanceOfGain).toBeGreaterThan(0.99);
    expect(chanceResolvable).toBeGreaterThan(0.93);
    expect(chanceResolvable).toBeLessThan(0.98);
  });
});
