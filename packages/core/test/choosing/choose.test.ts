import { describe, expect, it } from 'vitest';
import { type Baseline, pinBaseline } from '../../src/changes/baseline.ts';
import type { ChoiceResult } from '../../src/choosing/choiceResult.ts';
import { type ChooseOptions, choose } from '../../src/choosing/choose.ts';
import { readShelf } from '../../src/choosing/readShelf.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import type { RunJobs } from '../../src/studies/job.ts';
import { exampleText } from '../reading/files.ts';
import { altered, losing, runnerOf } from '../studies/fakeCurves.ts';

const BAND = { fromRpm: 3000, toRpm: 6000 };

function baseline(more = ''): Baseline {
  const read = readDocument(`${exampleText('minimum')}\n${more}`);
  const first = read.ok ? pinBaseline(read.value) : read;
  const second = first.ok ? pinBaseline(first.value.document) : first;
  if (!second.ok) throw new Error('the example can not be read');
  return second.value;
}

const INCH = 0.0254;

/** Worked out on paper: 5 N m a point of compression, a top at 32 in of primary, a friction that pays by itself, and a pair that fights. */
const torque = ({ chamber, exhaustSystem, friction }: Combination): number =>
  200 +
  5 * (chamber.compressionRatio - 9.5) -
  0.1 * (exhaustSystem.primary.length / INCH - 32) ** 2 +
  (friction.multiplier < 1 ? 4 - 6 * (chamber.compressionRatio - 9.5) : 0);

const SHELF = `
groups:
  - name: Compression
    choices:
      - { name: Milled, add: { chamber.compression: 0.5 }, cost: 300, hours: 6 }
      - { name: Pistons, add: { chamber.compression: 1 }, cost: 900, hours: 20 }
  - name: Rings
    choices:
      - { name: Low friction, scale: { friction.multiplier: 0.8 }, cost: 250, hours: 15 }
ranges:
  - { name: Primary, field: exhaust.primary.length, from: 28 in, to: 34 in, step: 2 in, cost: 400, hours: 4 }
`;

async function chosen(
  text: string = SHELF,
  options: ChooseOptions = {},
  run = runnerOf(torque),
  engine = baseline(),
): Promise<ChoiceResult> {
  const read = readShelf(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const result = await choose(engine, read.value, { band: BAND, run, ...options });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

const names = ({ choices }: { choices: ChoiceResult['builds'][number]['choices'] }): string =>
  choices.map(({ choice }) => choice ?? '-').join(', ');

describe('choose(baseline, shelf, options)', () => {
  it('finds the best of a small shelf with every build forecast, its price and what the tied share', async () => {
    const { builds, search, frontier, shared, complete } = await chosen();
    expect(complete).toBe(true);
    // The engine's own primaries are 34 in: one of the values.
    expect(search).toMatchObject({
      builds: 24,
      withinLimits: 24,
      forecast: 24,
      enumerated: true,
      missing: 0,
      never: [],
    });
    expect(names(builds[0])).toBe('Pistons, -, Primary 32 in');
    expect([builds[0].cost, builds[0].hours]).toEqual([1300, 24]);
    const own = torque(baseline().combination);
    expect(builds[0].gainPct).toBeCloseTo(100 * ((200 + 5) / own - 1), 9);
    expect(frontier.map(({ cost }) => cost)).toEqual(
      [...frontier.map(({ cost }) => cost)].sort((a, b) => (a ?? 0) - (b ?? 0)),
    );
    expect(frontier[frontier.length - 1].gainPct).toBe(builds[0].gainPct);
    expect(shared).toContainEqual({ group: 'Primary', choice: 'Primary 32 in' });
  });

  it('says how sure the gain is and which builds can not be told apart', async () => {
    const { builds } = await chosen();
    for (const { sigmaPct, chanceOfGain, tieGroup } of builds) {
      expect(sigmaPct).toBeGreaterThan(0);
      expect(chanceOfGain).toBeGreaterThan(0.5);
      expect(tieGroup).toBeGreaterThanOrEqual(1);
    }
  });

  it('keeps budget, hours and the largest value of a field without a forecast', async () => {
    const { builds, search } = await chosen(
      `${SHELF}\nlimits: { cost: 750, hours: 12, largest: { chamber.compression: 10.2 } }`,
    );
    // Milled with a header costs 700 and takes 10 hours; the rings take 15, and the pistons ask for too much.
    expect(names(builds[0])).toBe('Milled, -, Primary 32 in');
    expect(search.withinLimits).toBe(8);
    expect(search.forecast).toBe(8);
    expect(search.never.map(({ choice }) => choice)).toEqual(['Pistons', 'Low friction']);
  });

  it('refuses builds that break a limit of the file by the rule of every study, and counts them', async () => {
    const plain = runnerOf(torque);
    const run = Object.assign(
      async (...[jobs, control]: Parameters<typeof plain>) =>
        (await plain(jobs, control)).map((curve, i) =>
          curve === null
            ? null
            : altered(curve, () => ({
                octaneAtBestTiming: 82 + jobs[i].combination.chamber.compressionRatio,
              })),
        ),
      { asked: [] },
    );
    const { researchOctane, motorOctane } = baseline().combination.fuel;
    const margin = (researchOctane + motorOctane) / 2 - 92.1;
    const limited = baseline(`limits: { octaneMargin: ${margin.toFixed(3)} }`);
    const { builds, search } = await chosen(SHELF, {}, run, limited);
    expect(builds.length).toBeGreaterThan(0);
    expect(builds.map(names).join()).not.toContain('Pistons');
    expect(search.refused).toBe(8);
    const free = await chosen(SHELF, {}, run);
    expect(free.search.refused).toBe(0);
    expect(free.builds.map(names).join()).toContain('Pistons');
  });

  it('weighs aims over bands of their own', async () => {
    const low = ({ friction, exhaustSystem }: Combination, rpm: number): number =>
      200 +
      (rpm < 4000 ? 10 * (1 - friction.multiplier) : 0) -
      Math.abs(exhaustSystem.primary.length / INCH - 30) * (rpm > 5000 ? 1 : 0);
    const aims =
      'aims: [{ from: 2000 rpm, to: 3500 rpm, of: torque, weight: 3 }, { from: 5500 rpm, to: 6500 rpm }]';
    const { builds, rpm, band } = await chosen(`${SHELF}\n${aims}`, {}, runnerOf(low));
    expect(band).toEqual({ fromRpm: 2000, toRpm: 6500 });
    expect(rpm.some((n) => n > 3500 && n < 5500)).toBe(false);
    expect(names(builds[0])).toMatch(/Low friction, Primary 30 in$/);
    expect(builds[0].gainPct).toBeCloseTo((3 * builds[0].byAim[0] + builds[0].byAim[1]) / 4, 12);
  });

  it('leaves out builds whose parts can not be had together, and says how many', async () => {
    const clash = SHELF.replace(
      '- name: Rings',
      '- name: Heads\n    choices:\n      - { name: Other heads, set: { chamber.compression: 9 }, cost: 0, hours: 0 }\n  - name: Rings',
    );
    const { search, builds } = await chosen(clash);
    // Both set the ratio: 2 ways of compression, with the heads, 2 rings and 4 lengths.
    expect(search.impossible).toBe(16);
    expect(builds[0].choices.length).toBe(4);
  });

  it('finds with few builds forecast what all of them show: the best, and what money buys', async () => {
    const more = SHELF.replace('from: 28 in, to: 34 in, step: 2 in', 'from: 24 in, to: 40 in, step: 2 in');
    const all = await chosen(more, { wanted: 9 });
    const few = await chosen(more, { most: 12, wanted: 1 });
    expect(all.search.builds).toBe(54);
    expect(few.search.forecast).toBeLessThan(all.search.forecast);
    // Every build of the frontier was forecast: their number counts those tried for money's sake.
    expect(few.search.forecast).toBeGreaterThan(12);
    expect(names(few.builds[0])).toBe(names(all.builds[0]));
    const bought = ({ frontier }: ChoiceResult, money: number): number =>
      Math.max(...frontier.filter(({ cost }) => (cost ?? 0) <= money).map(({ gainPct }) => gainPct));
    for (const money of [0, 400, 900, 2000])
      expect(bought(few, money)).toBeGreaterThan(bought(all, money) - 0.3);
  });

  it('leaves builds without a price out of what money buys', async () => {
    const { frontier } = await chosen(SHELF.replace('cost: 250, hours: 15', 'hours: 15'));
    expect(frontier.length).toBeGreaterThan(1);
    expect(frontier.map(names).join()).not.toContain('Low friction');
  });

  it('tells what is wrong with a part of the shelf before any forecast', async () => {
    const run = runnerOf(torque);
    const read = readShelf(SHELF.replace('chamber.compression: 0.5', 'chamber.compression: 40'));
    if (!read.ok) throw new Error('the shelf must read');
    const result = await choose(baseline(), read.value, { band: BAND, run });
    expect(result.ok ? [] : result.problems.map(({ path }) => path)).toEqual(['chamber.compression']);
    expect(run.asked).toEqual([]);
  });

  it('gives the same on any run, and what there is after an abort', async () => {
    expect(JSON.stringify(await chosen())).toBe(JSON.stringify(await chosen()));
    const cut = await chosen(SHELF, {}, runnerOf(torque, 5));
    expect(cut.complete).toBe(false);
    expect(cut.search.forecast).toBe(4);
    expect(cut.builds.every(({ sigmaPct }) => sigmaPct === null)).toBe(true);
  });

  it('makes no more jobs once an abort has come, though all that were asked for are done', async () => {
    const stop = new AbortController();
    const run = runnerOf(torque);
    let rounds = 0;
    const stopping: RunJobs = async (jobs, control) => {
      const curves = await run(jobs, control);
      rounds += 1;
      stop.abort();
      return curves;
    };
    const many = SHELF.replace('step: 2 in', 'step: 0.2 in');
    const cut = await chosen(many, { signal: stop.signal }, Object.assign(stopping, { asked: run.asked }));
    expect(rounds).toBe(1);
    expect(cut).toMatchObject({ complete: false, search: { enumerated: false, forUncertainty: 0 } });
    expect(cut.builds.length).toBe(5);
  });

  it('leaves out a build that lost a speed and says so', async () => {
    const run = losing(runnerOf(torque), 3000, ({ friction }) => friction.multiplier < 1);
    const { builds, leftOut, search } = await chosen(SHELF, {}, Object.assign(run, { asked: [] }));
    expect(builds.map(names).join()).not.toContain('Low friction');
    expect(search.refused).toBe(12);
    expect(leftOut[0]).toMatchObject({ rpm: 3000 });
  });

  it('names a shelf that no build can keep the limits of', async () => {
    const read = readShelf(
      `${SHELF.replace('- name: Rings', '- name: Rings\n    mayStay: false')}\nlimits: { cost: 100 }`,
    );
    if (!read.ok) throw new Error('the shelf must read');
    const result = await choose(baseline(), read.value, { band: BAND, run: runnerOf(torque) });
    expect(result).toMatchObject({ ok: false, problems: [{ code: 'nothing-allowed' }] });
  });
});

describe('readShelf(text)', () => {
  const problems = (text: string): readonly string[] => {
    const read = readShelf(text, { file: 'shelf.yaml' });
    return read.ok ? [] : read.problems.map(({ line, code }) => `${line} ${code}`);
  };

  it.each([
    ['wanted', { wanted: 0 }],
    ['wanted', { wanted: Number.NaN }],
    ['most', { most: 9 }],
  ] as const)('refuses %s of nothing', async (parameter, options) => {
    const read = readShelf(SHELF);
    if (!read.ok) throw new Error('the shelf can not be read');
    await expect(choose(baseline(), read.value, { band: BAND, ...options })).rejects.toMatchObject({
      parameter,
    });
  });

  it('reads values of a range in the unit of its first', () => {
    const read = readShelf(
      'ranges: [{ name: P, field: exhaust.primary.length, from: 28 in, to: 0.8 m, step: 25.4 mm }]',
    );
    expect(read.ok && read.value.groups[0].alternatives.map(({ name }) => name)).toEqual([
      'P 28 in',
      'P 29 in',
      'P 30 in',
      'P 31 in',
    ]);
  });

  it.each([
    ['', [0, 0]],
    [', cost: 300', [300, null]],
    [', hours: 2', [null, 2]],
    [', cost: 300, hours: 2', [300, 2]],
  ] as const)(
    'knows of a range what it states, and counts it as a setting where it states nothing%s',
    (more, spent) => {
      const read = readShelf(
        `ranges: [{ name: P, field: cam.advance, from: 0 deg, to: 4 deg, step: 2 deg${more} }]`,
      );
      const [first] = read.ok ? read.value.groups[0].alternatives : [];
      expect([first.cost, first.hours]).toEqual(spent);
    },
  );

  it.each([
    ['groups: []', 'null value-missing'],
    [
      'ranges: [{ name: P, field: exhaust.primary.lenght, from: 28 in, to: 30 in, step: 1 in }]',
      '1 unknown-path',
    ],
    [
      'ranges: [{ name: P, field: exhaust.primary.length, from: 28 in, to: 30 deg, step: 1 in }]',
      '1 wrong-kind',
    ],
    [
      'ranges: [{ name: P, field: exhaust.primary.length, from: 28 in, to: 20 in, step: 1 in }]',
      '1 wrong-kind',
    ],
    ['ranges: [{ name: P, field: cam.advance, from: 0 deg, to: 30 deg, step: 0.1 deg }]', '1 wrong-kind'],
    [`${SHELF}\nlimits: { largest: { cam.lift: 1 in } }`, '13 unknown-path'],
    [`${SHELF}\nlimits: { pistonSpeed: 20 m/s }`, '13 unknown-field'],
    [`${SHELF}\naims: [{ from: 6000 rpm, to: 5000 rpm }]`, '13 wrong-kind'],
    [SHELF.replace('name: Pistons', 'name: Milled'), 'null name-twice'],
    [SHELF.replace('choices', 'choice'), '4 unknown-field'],
  ])('refuses %s', (text, problem) => {
    expect(problems(text)[0]).toBe(problem);
  });
});
