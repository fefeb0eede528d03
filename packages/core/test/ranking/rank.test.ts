import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { Change, FieldEdit } from '../../src/changes/change.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { type RankOptions, rank } from '../../src/ranking/rank.ts';
import type { RankingResult } from '../../src/ranking/rankingResult.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { gainVariance } from '../../src/uncertainty/gainError.ts';
import { exampleText } from '../reading/files.ts';
import { altered, losing, runnerOf } from '../studies/fakeCurves.ts';

const BAND = { fromRpm: 3000, toRpm: 6000 };

/** The smallest example with its estimates written into the file: few unknowns, those of what a file states. */
function sureBaseline(): Baseline {
  const read = readDocument(exampleText('minimum'));
  const first = read.ok ? pinBaseline(read.value) : read;
  const second = first.ok ? pinBaseline(first.value.document) : first;
  if (!second.ok) throw new Error('the example can not be read');
  return second.value;
}

function change(name: string, edits: readonly FieldEdit[], more: Partial<Change> = {}): Change {
  return { name, edits, cost: 100, hours: 1, reversible: true, insteadOf: null, ...more };
}

const scale = (path: string, factor: number): FieldEdit => ({ kind: 'scale', path, factor });
const set = (path: string, value: number | string): FieldEdit => ({ kind: 'set', path, value });

/** An engine invented for these tests, with answers that can be worked out on paper: every part adds torque of its own. */
function additive({ chamber, exhaustSystem, burn, friction }: Combination): number {
  return (
    200 +
    6 * (chamber.compressionRatio - 9.5) +
    20 * (exhaustSystem.primary.length / 0.8636 - 1) +
    100 * (burn.efficiency / 0.97 - 1) -
    10 * (friction.multiplier - 1)
  );
}

const HEADER = change('header', [scale('exhaust.primary.length', 1.2)]);
const RINGS = change('rings', [scale('friction.multiplier', 0.8)], {
  cost: 300,
  hours: 20,
  reversible: false,
});
const MILL = change('mill', [{ kind: 'add', path: 'chamber.compression', amount: 0.5 }], { cost: 200 });

async function ranked(
  changes: readonly Change[],
  options: RankOptions = {},
  run: RunJobs = runnerOf(additive),
): Promise<RankingResult> {
  const result = await rank(sureBaseline(), changes, { band: BAND, run, ...options });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

describe('rank(baseline, changes, options)', () => {
  it('sorts by gain over the band, in percent and in kilowatts', async () => {
    const { changes, baseline, complete } = await ranked([RINGS, HEADER, MILL]);
    // 20 * 0.2 = 4, 6 * 0.5 = 3 and 10 * 0.2 = 2 N m on 200.
    expect(changes.map(({ name }) => name)).toEqual(['header', 'mill', 'rings']);
    changes.forEach(({ bandGainPct }, i) => {
      expect(bandGainPct).toBeCloseTo([2, 1.5, 1][i], 4);
    });
    // 200 N m at 4500 rpm, the middle of the band.
    expect(baseline?.bandPowerKw).toBeCloseTo(200 * 4500 * (Math.PI / 30_000), 3);
    expect(changes[0].bandGainKw).toBeCloseTo(0.02 * 200 * 4500 * (Math.PI / 30_000), 3);
    expect(changes[0].peakPowerGainPct).toBeCloseTo(2, 4);
    expect(complete).toBe(true);
  });

  it('finds no interaction between changes that add, and one where they multiply', async () => {
    const adds = await ranked([HEADER, MILL, RINGS]);
    expect(adds.pairs.map(({ verdict }) => verdict)).toEqual(['independent', 'independent', 'independent']);
    for (const { interactionPct } of adds.pairs) expect(Math.abs(interactionPct)).toBeLessThan(1e-9);
    const product = runnerOf((c) => 200 * (additive(c) / 200) * (1 + (c.chamber.compressionRatio - 9.5)));
    const multiplied = await ranked([HEADER, MILL], {}, product);
    const [pair] = multiplied.pairs;
    // (1 + 0.02 + 0.015) 1.5 - 1.02 - 1.015 * 1.5 + 1, worked out for the pair.
    expect(pair.interactionPct).toBeCloseTo(100 * (1.035 * 1.5 - 1.02 - 1.015 * 1.5 + 1), 4);
    expect(pair.verdict).toBe('helps');
    expect(pair.togetherPct).toBeCloseTo(100 * (1.035 * 1.5 - 1), 4);
  });

  it('gives mirrored results for mirrored order', async () => {
    const list = [HEADER, RINGS, MILL, change('lean', [scale('burn.efficiency', 1.01)])];
    const there = await ranked(list);
    const back = await ranked([...list].reverse());
    expect(back).toEqual(there);
  });

  it('gives the same bytes for the same seed, whatever the workers do first, and others for another', async () => {
    const inOrder = runnerOf(additive);
    const shuffled: RunJobs = async (jobs, control) => {
      const backwards = await inOrder([...jobs].reverse(), control);
      return [...backwards].reverse();
    };
    const bytes = async (options: RankOptions, run?: RunJobs): Promise<string> =>
      JSON.stringify(await ranked([HEADER, MILL], options, run));
    const once = await bytes({ seed: 4 });
    expect(await bytes({ seed: 4 }, shuffled)).toBe(once);
    expect(await bytes({ seed: 5 })).not.toBe(once);
  });

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

  it('ties what is not settled and parts what is', async () => {
    const { meteringArea } = sureBaseline().combination.induction;
    const shaky = runnerOf((c) => additive(c) + 20 * (c.induction.meteringArea / meteringArea - 1));
    // 2 % as the header's, with two ratings of 4 % behind it: 0.6 % uncertain.
    const rating = change('carburetor', [scale('induction.carburetor.rating', 1.19)]);
    const longer = change('longer header', [scale('exhaust.primary.length', 1.21)], { insteadOf: 'headers' });
    const tied = await ranked([HEADER, rating, RINGS], {}, shaky);
    expect(tied.changes.map(({ name, tieGroup }) => [name, tieGroup])).toEqual([
      ['header', 1],
      ['carburetor', 1],
      ['rings', 2],
    ]);
    // Two headers whose small difference shares every error are told apart.
    const parted = await ranked([HEADER, longer], {}, shaky);
    expect(parted.changes.map(({ name, tieGroup }) => [name, tieGroup])).toEqual([
      ['longer header', 1],
      ['header', 2],
    ]);
  });

  it('never pairs what excludes each other, in pairs, together or in the best set', async () => {
    const group = { insteadOf: 'headers' };
    const list = [
      change('short', [scale('exhaust.primary.length', 1.1)], group),
      change('long', [scale('exhaust.primary.length', 1.3)], group),
      MILL,
    ];
    const { pairs, together, best } = await ranked(list);
    expect(pairs.map(({ a, b }) => [a, b].sort().join(' + ')).sort()).toEqual([
      'long + mill',
      'mill + short',
    ]);
    expect(together?.changes).toEqual(['long', 'mill']);
    expect(best?.changes).toEqual(['long', 'mill']);
  });

  it('takes changes that set one field to two values for exclusive too, and says so', async () => {
    const list = [
      change('nine', [set('chamber.compression', 9)]),
      change('ten', [set('chamber.compression', 10)]),
    ];
    const { pairs, warnings } = await ranked(list);
    expect(pairs).toEqual([]);
    expect(warnings.find(({ code }) => code === 'pair-impossible')?.message).toContain("'nine' and 'ten'");
  });

  it('finds the best set that a budget bears, and never exceeds it', async () => {
    const list = [
      HEADER,
      MILL,
      RINGS,
      change('free lunch', [scale('burn.efficiency', 1.02)], { cost: null }),
    ];
    const all = await ranked(list);
    expect(all.best?.changes).toEqual(
      ['free lunch', 'header', 'mill', 'rings'].sort((a, b) => place(all, a) - place(all, b)),
    );
    const tight = await ranked(list, { budget: { cost: 300, hours: null } });
    expect(tight.best).toMatchObject({ changes: ['header', 'mill'], cost: 300 });
    expect(tight.best?.bandGainPct).toBeCloseTo(3.5, 3);
    expect(
      tight.warnings.some(({ code, message }) => code === 'budget-unknown' && message.includes('free lunch')),
    ).toBe(true);
    const none = await ranked(list, { budget: { cost: 50, hours: null } });
    expect(none.best).toBeNull();
  });

  it('looks at five speeds over the band, at one below it where the engine runs there, or at those asked for', async () => {
    const { rpm } = await ranked([HEADER]);
    expect(rpm.slice(1)).toEqual([3000, 3750, 4500, 5250, 6000]);
    expect(rpm[0]).toBeLessThan(2700);
    const asked = await ranked([HEADER], { rpm: [2500, 4000, 5500] });
    expect(asked.rpm).toEqual([2500, 4000, 5500]);
    const one = await ranked([HEADER], { rpm: [4000], band: { fromRpm: 4000, toRpm: 4000 } });
    expect(one.changes[0].bandGainPct).toBeCloseTo(2, 4);
  });

  it('reports the worst loss and where it is, in the band or below it', async () => {
    const tilted = runnerOf(
      (c, rpm) => 200 + (c.exhaustSystem.primary.length / 0.8636 - 1) * (rpm - 3500) * 0.02,
    );
    const { changes, rpm } = await ranked([HEADER], {}, tilted);
    const lowest = rpm[0];
    expect(changes[0].worstLossRpm).toBe(lowest);
    expect(changes[0].worstLossPct).toBeCloseTo((100 * 0.2 * (lowest - 3500) * 0.02) / 200, 3);
    const { changes: unharmed } = await ranked([HEADER]);
    expect(unharmed[0]).toMatchObject({ worstLossPct: 0, worstLossRpm: null });
  });

  it('reports what there is where an abort comes, at whatever job', async () => {
    const full = runnerOf(additive);
    await ranked([HEADER, MILL], {}, full);
    for (const stopAt of [0, 1, 2, 5, 12, 20, 100]) {
      let done = 0;
      const inner = runnerOf(additive);
      const run: RunJobs = async (jobs, control) => {
        const curves = await inner(jobs, control);
        return curves.map((curve) => (done++ < stopAt ? curve : null));
      };
      const ranking = await ranked([HEADER, MILL], {}, run);
      expect(ranking.complete).toBe(stopAt >= full.asked.length);
      expect(ranking.changes.length).toBe(Math.max(0, Math.min(2, stopAt - 1)));
      for (const { bandGainPct, sigmaPct, bySpeed } of ranking.changes) {
        expect(Number.isFinite(bandGainPct)).toBe(true);
        // A spread without what was not looked at would be too small.
        if (stopAt <= 20) expect(sigmaPct).toBeNull();
        const inBand = bySpeed.filter(({ rpm }) => rpm >= BAND.fromRpm);
        expect(inBand.every(({ sigmaNm }) => (sigmaNm === null) === (sigmaPct === null))).toBe(true);
      }
    }
  });

  it('ranks what has figures where a speed of one change was lost, and says what it left out', async () => {
    const isHeader = ({ exhaustSystem }: Combination): boolean => exhaustSystem.primary.length > 1;
    const lossy = losing(runnerOf(additive), 4500, isHeader);
    const { changes, pairs, leftOut, warnings } = await ranked([RINGS, HEADER, MILL], {}, lossy);
    expect(changes.map(({ name }) => name)).toEqual(['mill', 'rings']);
    expect(pairs.map(({ a, b }) => [a, b])).toEqual([['mill', 'rings']]);
    expect(leftOut).toContainEqual({ curve: 'change: header', rpm: 4500, reason: 'too fast to follow' });
    expect(warnings.map(({ message }) => message)).toContain(
      "no figures of 'header' at 4500 rpm, so that it is not ranked",
    );
  });

  it('reports progress that rises to the end', async () => {
    const seen: (readonly [number, number])[] = [];
    const full = runnerOf(additive);
    await ranked([HEADER, MILL], { onProgress: (done, total) => seen.push([done, total]) }, full);
    expect(seen.map(([done]) => done)).toEqual(full.asked.map((_, i) => i + 1));
    for (const [done, total] of seen) expect(total).toBeGreaterThanOrEqual(done);
  });

  it('tells a total that never climbs, however many rounds its unknowns ask for', async () => {
    // Products of everything, so that few unknowns leave much to be looked at together.
    const tangled = runnerOf(
      (c) =>
        additive(c) *
        (c.exhaustSystem.primary.length / 0.8636) ** (c.friction.multiplier * c.chamber.compressionRatio),
    );
    const read = readDocument(exampleText('minimum'));
    const baseline = read.ok ? pinBaseline(read.value) : read;
    if (!baseline.ok) throw new Error('the example can not be read');
    const totals: number[] = [];
    const onProgress = (_done: number, total: number): number => totals.push(total);
    await rank(baseline.value, [HEADER, MILL, RINGS], { band: BAND, run: tangled, onProgress });
    totals.forEach((total, i) => {
      if (i > 0) expect(total, `${i}`).toBeLessThanOrEqual(totals[i - 1]);
    });
    expect(totals[totals.length - 1]).toBeGreaterThanOrEqual(totals.length);
  });

  it('keeps best set and order of tests to one rule', async () => {
    // 0.06 % by itself: more than nothing, and not worth a bolt.
    const rod = change('rod', [scale('friction.multiplier', 0.988)]);
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

  it('says of a plenum alone that it is not modelled where nothing comes of it, and shows what does', async () => {
    const spacer = change('spacer', [scale('induction.plenum', 1.3)]);
    const { changes, order } = await ranked([HEADER, spacer]);
    expect(changes.find(({ name }) => name === 'spacer')?.notModelled).toContain('holds the volume');
    expect(order.leave[0]).toMatchObject({ change: 'spacer' });
    expect(order.leave[0].why).toMatch(/^not modelled: /);
    const gains = runnerOf((c) => additive(c) + c.induction.plenums[0].volume * 2e4);
    const felt = await ranked([spacer], {}, gains);
    expect(felt.changes[0].notModelled).toBeNull();
  });

  it('gives the gain of an hour and of a coin where hours and cost are stated', async () => {
    const dear = change('header', [scale('exhaust.primary.length', 1.2)], { cost: 400, hours: 8 });
    const { changes } = await ranked([dear, change('mill', MILL.edits, { cost: null, hours: null })]);
    const [header, mill] = changes;
    expect(header.gainKwPerHour).toBeCloseTo(header.bandGainKw / 8, 12);
    expect(header.gainKwPerCost).toBeCloseTo(header.bandGainKw / 400, 12);
    expect(mill).toMatchObject({ gainKwPerHour: null, gainKwPerCost: null });
  });

  it('gives back what is wrong with a change, and throws where the caller is', async () => {
    const wrong = change('typo', [set('chamber.compresion', 11)]);
    const result = await rank(sureBaseline(), [wrong], { band: BAND, run: runnerOf(additive) });
    expect(result.ok ? [] : result.problems.map(({ code }) => code)).toEqual(['unknown-path']);
    await expect(ranked([HEADER, HEADER])).rejects.toThrow(DomainError);
    await expect(ranked([])).rejects.toThrow(DomainError);
    await expect(ranked([HEADER], { band: { fromRpm: 5000, toRpm: 4000 } })).rejects.toThrow(DomainError);
  });
});

function place({ changes }: RankingResult, name: string): number {
  return changes.findIndex((c) => c.name === name);
}
