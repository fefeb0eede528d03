import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { pinBaseline } from '../../src/changes/baseline.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { rank } from '../../src/ranking/rank.ts';
import type { RankOptions } from '../../src/ranking/rankOptions.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { exampleText } from '../reading/files.ts';
import { losing, runnerOf } from '../studies/fakeCurves.ts';

import {
  additive,
  BAND,
  COATING,
  change,
  HEADER,
  MILL,
  place,
  ranked,
  scale,
  set,
  sureBaseline,
} from './rankedEngine.ts';

describe('rank(baseline, changes, options)', () => {
  it('sorts by gain over the band, in percent and in kilowatts', async () => {
    const { changes, baseline, complete } = await ranked([COATING, HEADER, MILL]);
    // 20 * 0.2 = 4, 6 * 0.5 = 3 and 10 * 0.2 = 2 N m on 200.
    expect(changes.map(({ name }) => name)).toEqual(['header', 'mill', 'thermal coating']);
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
    const adds = await ranked([HEADER, MILL, COATING]);
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
    const list = [HEADER, COATING, MILL, change('lean', [scale('burn.efficiency', 1.01)])];
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

  it('ties what is not settled and parts what is', async () => {
    const { meteringArea } = sureBaseline().combination.induction;
    const shaky = runnerOf((c) => additive(c) + 20 * (c.induction.meteringArea / meteringArea - 1));
    // 2 % as the header's, with two ratings of 4 % behind it: 0.6 % uncertain.
    const rating = change('carburetor', [scale('induction.carburetor.rating', 1.19)]);
    const longer = change('longer header', [scale('exhaust.primary.length', 1.21)], { insteadOf: 'headers' });
    const tied = await ranked([HEADER, rating, COATING], {}, shaky);
    expect(tied.changes.map(({ name, tieGroup }) => [name, tieGroup])).toEqual([
      ['header', 1],
      ['carburetor', 1],
      ['thermal coating', 2],
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
      COATING,
      change('free lunch', [scale('burn.efficiency', 1.02)], { cost: null }),
    ];
    const all = await ranked(list);
    expect(all.best?.changes).toEqual(
      ['free lunch', 'header', 'mill', 'thermal coating'].sort((a, b) => place(all, a) - place(all, b)),
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
    const { changes, pairs, leftOut, warnings } = await ranked([COATING, HEADER, MILL], {}, lossy);
    expect(changes.map(({ name }) => name)).toEqual(['mill', 'thermal coating']);
    expect(pairs.map(({ a, b }) => [a, b])).toEqual([['mill', 'thermal coating']]);
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

  it('marches no engine for its responses that differs from another in what rubs alone', async () => {
    const run = runnerOf(additive);
    const bearings = change('bearings', [scale('friction.mainDiameter', 0.8)]);
    const { changes, pairs } = await ranked([bearings, HEADER], {}, run);
    const coarse = run.asked.filter(({ mesh }) => mesh !== undefined);
    const sizes = new Set(coarse.map(({ combination }) => combination.friction.mainDiameter));
    expect([...sizes]).toEqual([sureBaseline().combination.friction.mainDiameter]);
    // Some 0.05 bar of 4 or 5, by its own figures beside those of an invented engine.
    expect(changes.find(({ name }) => name === 'bearings')?.sigmaPct).toBeGreaterThan(0.1);
    expect(Math.abs(pairs[0].interactionPct)).toBeLessThan(0.2);
  });

  it('tells a total that never climbs, however many rounds its unknowns ask for', async () => {
    // Products of everything, so that few unknowns leave much to be looked at together.
    const tangled = runnerOf(
      (c) =>
        additive(c) *
        (c.exhaustSystem.primary.length / 0.8636) ** (c.walls.multiplier * c.chamber.compressionRatio),
    );
    const read = readDocument(exampleText('minimum'));
    const baseline = read.ok ? pinBaseline(read.value) : read;
    if (!baseline.ok) throw new Error('the example can not be read');
    const totals: number[] = [];
    const onProgress = (_done: number, total: number): number => totals.push(total);
    await rank(baseline.value, [HEADER, MILL, COATING], { band: BAND, run: tangled, onProgress });
    totals.forEach((total, i) => {
      if (i > 0) expect(total, `${i}`).toBeLessThanOrEqual(totals[i - 1]);
    });
    expect(totals[totals.length - 1]).toBeGreaterThanOrEqual(totals.length);
  });

  it('says of a plenum alone that it is not modelled where nothing comes of it, and shows what does', async () => {
    const spacer = change('spacer', [scale('induction.plenum', 1.3)]);
    const { changes, order } = await ranked([HEADER, spacer]);
    expect(changes.find(({ name }) => name === 'spacer')?.notModelled).toContain('has the volume');
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
