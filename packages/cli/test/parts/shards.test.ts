import { describe, expect, it } from 'vitest';
import { EXIT } from '../../src/exitCodes.ts';
import { main } from '../../src/main.ts';
import { type World, world } from '../fakeIo.ts';
import { byPrimary, studyCore } from '../studies.ts';

const files = {
  'a.yaml': `
name: As bought
engine: { bore: 4.000 in, stroke: 3.480 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
exhaust: { style: headers, primary: { length: 33 in } }
`,
  'changes.yaml': `
changes:
  - { name: Longer, scale: { exhaust.primary.length: 1.1 }, cost: 600, hours: 4 }
`,
};

const SWEEP = ['sweep', 'a.yaml', '--vary', 'exhaust.primary.length=28:34:1 in', '--rpm', '3000:6000:1000'];
const RANK = ['rank', 'a.yaml', '--changes', 'changes.yaml', '--band', '3000:6000'];

async function run(w: World, words: readonly string[], stopAfter?: number): Promise<number> {
  return main(words, w.io, studyCore(byPrimary, stopAfter));
}

/** What one process gives. */
async function whole(words: readonly string[]): Promise<string> {
  const w = world({ files });
  expect(await run(w, [...words, '--json'])).toBe(EXIT.ok);
  return w.out();
}

const entries = (text = ''): number => text.split('\n').filter((line) => line.startsWith('{"key"')).length;

describe('a study in shares', () => {
  it('gives the bytes of one process once its parts are put together, each forecast done once', async () => {
    const w = world({ files });
    for (const share of [1, 2, 3])
      expect(await run(w, [...SWEEP, '--shard', `${share}/3`, '-o', `part${share}.ndjson`])).toBe(EXIT.ok);
    expect(w.out()).toBe('');
    // The engine as it is and seven lengths.
    expect([1, 2, 3].map((share) => entries(w.files.get(`part${share}.ndjson`)))).toEqual([3, 3, 2]);
    const joined = [1, 2, 3].map((share) => w.files.get(`part${share}.ndjson`)).join('');
    w.files.set('all.ndjson', joined + joined);
    const nothing = studyCore(() => Number.NaN);
    expect(await main([...SWEEP, '--parts', 'all.ndjson', '--json'], w.io, nothing)).toBe(EXIT.ok);
    expect(w.out()).toBe(await whole(SWEEP));
  });

  it('does a round where later forecasts depend on earlier ones, and the rest follows from it', async () => {
    const w = world({ files });
    for (const share of [1, 2]) await run(w, [...RANK, '--shard', `${share}/2`, '-o', `part${share}.ndjson`]);
    expect(w.err()).toMatch(/^share 1\/2: \d+ forecasts done, 0 done before, \d+ are for other shares$/m);
    const parts = ['--parts', 'part1.ndjson', '--parts', 'part2.ndjson'];
    expect(await run(w, [...RANK, ...parts, '--json', '--journal', 'rest.ndjson'])).toBe(EXIT.ok);
    expect(w.out()).toBe(await whole(RANK));
    // Parts and journal together hold the whole study: nothing is left for a share.
    await run(w, [...RANK, ...parts, '--parts', 'rest.ndjson', '--shard', '1/2', '-o', 'part3.ndjson']);
    expect(w.err()).toContain('share 1/2: 0 forecasts done');
    expect(w.err()).toContain('none is left for others');
  });

  it('says what is wrong with a share', async () => {
    const w = world({ files });
    expect(await run(w, [...SWEEP, '--shard', '4/3', '-o', 'p'])).toBe(EXIT.usage);
    expect(await run(w, [...SWEEP, '--shard', '1/3'])).toBe(EXIT.usage);
    expect(w.err()).toContain('--shard 4/3: write which share of how many, such as 2/8');
    expect(w.err()).toContain('--shard needs -o FILE for its forecasts');
  });
});

describe('a journal', () => {
  it('lets an interrupted study begin where it left off, with the same bytes', async () => {
    const w = world({ files });
    expect(await run(w, [...SWEEP, '--journal', 'sweep.ndjson', '-q'], 3)).toBe(EXIT.interrupted);
    expect(entries(w.files.get('sweep.ndjson'))).toBe(3);
    const before = w.out().length;
    const core = studyCore();
    expect(await main([...SWEEP, '--journal', 'sweep.ndjson', '--json'], w.io, core)).toBe(EXIT.ok);
    expect(w.out().slice(before)).toBe(await whole(SWEEP));
    expect(entries(w.files.get('sweep.ndjson'))).toBe(8);
  });

  it('passes over a line that a crash cut short, and does that forecast again', async () => {
    const w = world({ files });
    await run(w, [...SWEEP, '--journal', 'sweep.ndjson', '-q']);
    const full = w.files.get('sweep.ndjson') ?? '';
    for (const cut of [full.length - 1, full.length - 40, full.indexOf('\n') + 60]) {
      const again = world({ files: { ...files, 'sweep.ndjson': full.slice(0, cut) } });
      expect(await run(again, [...SWEEP, '--journal', 'sweep.ndjson', '--json'])).toBe(EXIT.ok);
      expect(again.out()).toBe(await whole(SWEEP));
    }
  });

  it('refuses forecasts of another version, and files that hold none', async () => {
    const other = '{"valvetide":"9.9.9","holds":"forecasts"}\n';
    const w = world({ files: { ...files, 'other.ndjson': other } });
    expect(await run(w, [...SWEEP, '--parts', 'other.ndjson'])).toBe(EXIT.input);
    expect(w.err()).toContain('other.ndjson: made by valvetide 9.9.9, and this is 0.1.0');
    expect(await run(w, [...SWEEP, '--parts', 'a.yaml'])).toBe(EXIT.input);
    expect(await run(w, [...SWEEP, '--journal', 'a.yaml'])).toBe(EXIT.input);
    expect(w.files.get('a.yaml')).toBe(files['a.yaml']);
    expect(await run(w, [...SWEEP, '--parts', 'nowhere.ndjson'])).toBe(EXIT.file);
  });
});
