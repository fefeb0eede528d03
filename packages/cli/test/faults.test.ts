/** What goes wrong beside an engine: interrupts of every study, folders that take no file, sheets that vanish. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CORE, type Core } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { type World, world } from './fakeIo.ts';
import { inventedRunner, studyCore } from './studies.ts';

const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/hill-climb/${name}`, import.meta.url), 'utf8');
const NAMES = [
  'engine.yaml',
  'flow.csv',
  'flow-exhaust.csv',
  'changes.yaml',
  'shelf.yaml',
  'pulls.csv',
  'pulls-mufflers.csv',
];

/** The first two of the changes: pairs of all eight are planned for seconds before an interrupt is seen. */
const shortened = (changes: string): string =>
  changes
    .split(/\n(?= {2}- name)/u)
    .slice(0, 3)
    .join('\n');

const shop = (options: Parameters<typeof world>[0] = {}): World => {
  const files = Object.fromEntries(NAMES.map((name) => [name, example(name)]));
  return world({ files: { ...files, 'changes.yaml': shortened(files['changes.yaml']) }, ...options });
};

const BAND = ['--rpm', '5000:7000:1000'];
const CHANGE = ['--change', 'exhaust.muffler.backPressure=1.3 psi'];
const STUDIES: Readonly<Record<string, readonly string[]>> = {
  compare: ['engine.yaml', '--changes', 'changes.yaml', ...BAND],
  sweep: ['engine.yaml', '--vary', 'cam.advance=0:4:2 deg', ...BAND],
  restrictions: ['engine.yaml', ...BAND],
  rank: ['engine.yaml', '--changes', 'changes.yaml', '--band', '5000:7000'],
  choose: ['engine.yaml', '--shelf', 'shelf.yaml', '--band', '5000:7000'],
  calibrate: ['engine.yaml', '--pull', 'pulls.csv'],
  backtest: ['engine.yaml', ...CHANGE, '--before', 'pulls.csv', '--after', 'pulls-mufflers.csv'],
};

/** Every forecast is refused, as after an interrupt before the first was done. */
const stopped = (): Core => ({ ...CORE, openRunner: () => inventedRunner(() => 400, 0) });

describe.each(Object.entries(STUDIES))('%s', (command, words) => {
  it('interrupted before anything is done ends with 130, writes nothing and says so', async () => {
    for (const output of [[], ['-o', 'out.txt'], ['--json']]) {
      const w = shop();
      expect(await main([command, ...words, ...output], w.io, stopped()), w.err()).toBe(EXIT.interrupted);
      expect([w.out(), w.files.has('out.txt')]).toEqual(['', false]);
      expect(w.err()).toMatch(/interrupted.*nothing written\n$/u);
    }
  });

  it('interrupted in the middle ends with 130, and what it gives says that it is not all', async () => {
    const w = shop();
    const core: Core = { ...CORE, openRunner: () => inventedRunner(() => 400, 2) };
    expect(await main([command, ...words, '--json', '-o', 'out.json'], w.io, core), w.err()).toBe(
      EXIT.interrupted,
    );
    const kept = w.files.get('out.json');
    if (kept === undefined) expect(w.err()).toMatch(/interrupted.*nothing written\n$/u);
    else {
      expect(JSON.parse(kept)).toMatchObject({ complete: false });
      expect(w.err()).toMatch(/interrupted/u);
    }
  });

  it('does no work for a folder that takes no file', async () => {
    const core = studyCore();
    const w = shop({ refused: { 'in results': 'EACCES' } });
    expect(await main([command, ...words, '-o', 'results/out.txt'], w.io, core)).toBe(EXIT.file);
    expect(w.err()).toBe("results/out.txt: can't be written (permission denied)\n");
    expect(core.asked).toEqual([]);
  });

  it('reads each file once, so that one that vanishes meanwhile changes nothing', async () => {
    const w = shop();
    const seen: string[] = [];
    const readFile = (path: string): string => {
      seen.push(path);
      const text = w.io.readFile(path);
      w.files.delete(path);
      return text;
    };
    await main([command, ...words], { ...w.io, readFile }, stopped());
    expect(seen).toContain('flow.csv');
    expect(seen).toEqual([...new Set(seen)]);
    expect(w.err()).toMatch(/interrupted.*nothing written\n$/u);
  });
});

describe('a result that cannot be written when the work is done', () => {
  it('is kept where it can be, also where another process took its name meanwhile', async () => {
    const w = shop();
    const inner = studyCore();
    const core: Core = {
      ...inner,
      compare: async (...asked) => {
        w.files.set('out.csv', 'of another process');
        return inner.compare(...asked);
      },
    };
    const words = ['compare', ...STUDIES['compare'], '--csv', '-o', 'out.csv'];
    expect(await main(words, w.io, core)).toBe(EXIT.file);
    expect(w.err()).toContain(
      "out.csv: can't be written (already there)\nthe result is kept in /tmp/result/out.csv\n",
    );
    expect(w.files.get('out.csv')).toBe('of another process');
    expect(w.files.get('/tmp/result/out.csv')).toMatch(/^combination,rpm,/u);
  });
});
