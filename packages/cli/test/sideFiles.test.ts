import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { fakeCore } from './sampleCurve.ts';

const engine = { 'engine.yaml': 'engine: {}\n' };
const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000,5000'];
const idle = fakeCore({
  forecast: () => {
    throw new Error('must not be asked');
  },
});

describe('valvetide forecast --report and --svg', () => {
  it('write a page and a drawing beside the result, and nothing else', async () => {
    const w = world({ files: engine });
    expect(await main([...words, '--report', 'out.html', '--svg', 'curve.svg'], w.io, fakeCore())).toBe(
      EXIT.ok,
    );
    expect([...w.files.keys()].sort()).toEqual(['curve.svg', 'engine.yaml', 'out.html']);
    expect(w.files.get('out.html')).toMatch(/^<!doctype html>/);
    expect(w.files.get('curve.svg')).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg /);
    expect(w.out()).toMatch(/^Peak 612 lb-ft/);
    expect(w.err()).toBe('wrote out.html\nwrote curve.svg\n');
  });

  it('go with -o, --json and --quiet', async () => {
    const w = world({ files: engine });
    const all = [...words, '--json', '-o', 'out.json', '--report', 'out.html', '-q'];
    expect(await main(all, w.io, fakeCore())).toBe(EXIT.ok);
    expect(JSON.parse(w.files.get('out.json') ?? '')).toMatchObject({ schemaVersion: 1 });
    expect(w.files.has('out.html')).toBe(true);
    expect(w.err()).toBe('');
  });

  it('follow --units', async () => {
    const w = world({ files: engine });
    await main([...words, '--units', 'si', '--svg', 'curve.svg'], w.io, fakeCore());
    expect(w.files.get('curve.svg')).toContain('torque, Nm');
  });

  it.each(['report', 'svg'])(
    '--%s leaves a file alone that is there, before anything is computed',
    async (name) => {
      const w = world({ files: { ...engine, out: 'precious' } });
      expect(await main([...words, `--${name}`, 'out'], w.io, idle)).toBe(EXIT.file);
      expect(w.files.get('out')).toBe('precious');
      expect(w.err()).toBe('out: already there and left alone (--force replaces it)\n');
      expect(await main([...words, `--${name}`, 'out', '--force'], w.io, fakeCore())).toBe(EXIT.ok);
      expect(w.files.get('out')).not.toBe('precious');
    },
  );

  it('never write over a file that was read', async () => {
    const w = world({ files: engine });
    expect(await main([...words, '--report', './engine.yaml', '--force'], w.io, idle)).toBe(EXIT.file);
    expect(w.files.get('engine.yaml')).toBe(engine['engine.yaml']);
  });

  it.each([
    [['--report', '-'], '--report needs the name of a file\n'],
    [['--report', 'out', '-o', './out'], '-o and --report both name out\n'],
    [['--report', 'out', '--svg', 'out'], '--report and --svg both name out\n'],
  ])('refuse %j', async (more, complaint) => {
    const w = world({ files: engine });
    expect(await main([...words, ...more], w.io, idle)).toBe(EXIT.usage);
    expect(w.err()).toBe(complaint);
    expect([...w.files.keys()]).toEqual(['engine.yaml']);
  });

  it('tell where a file could not be written', async () => {
    const w = world({ files: engine, refused: { 'out.html': 'ENOSPC' } });
    expect(await main([...words, '--report', 'out.html'], w.io, fakeCore())).toBe(EXIT.file);
    expect(w.err()).toContain("out.html: can't be written (the disk is full)");
  });
});

describe('--chart', () => {
  it('draws the chart it names, and the first one where it is left out', async () => {
    const w = world({ files: engine });
    expect(await main([...words, '--svg', 'a.svg', '--chart', 'filling'], w.io, fakeCore())).toBe(EXIT.ok);
    expect(w.files.get('a.svg')).toContain('Filling');
    expect(await main([...words, '--svg', 'b.svg'], w.io, fakeCore())).toBe(EXIT.ok);
    expect(w.files.get('b.svg')).toContain('>Torque and power</title>');
  });

  it('needs --svg, before anything is computed', async () => {
    const w = world({ files: engine });
    expect(await main([...words, '--chart', 'filling'], w.io, idle)).toBe(EXIT.usage);
    expect(w.err()).toBe('--chart chooses the chart that --svg FILE draws: give --svg FILE too\n');
  });

  it('says so where the result has no such chart, and writes no file for it', async () => {
    const w = world({ files: engine });
    const all = [...words, '--svg', 'a.svg', '--chart', 'measured-difference'];
    expect(await main(all, w.io, fakeCore())).toBe(EXIT.usage);
    expect(w.err()).toContain('--chart measured-difference: this result has nothing to draw in it');
    expect(w.files.has('a.svg')).toBe(false);
  });

  it('marches a cycle for the pressure loop only where that is drawn', async () => {
    let traced = 0;
    const core = fakeCore({
      traceCycle: (...given) => {
        traced += 1;
        return fakeCore().traceCycle(...given);
      },
    });
    const w = world({ files: engine });
    await main([...words, '--svg', 'a.svg'], w.io, core);
    expect(traced).toBe(0);
    await main([...words, '--svg', 'b.svg', '--chart', 'pressure-loop'], w.io, core);
    expect(traced).toBe(1);
  });

  it('goes with pulls, whose sheets stay as they are', async () => {
    const sheet = '# standard: J607\nrpm,torque (lb-ft)\n4000,600\n5000,610\n';
    const w = world({ files: { 'a.csv': sheet, 'b.csv': sheet } });
    const all = ['pulls', 'a.csv', 'b.csv', '--report', 'p.html', '--svg', 'p.svg', '--chart', 'difference'];
    expect(await main(all, w.io)).toBe(EXIT.ok);
    expect(w.files.get('p.html')).toMatch(/^<!doctype html>/);
    expect(w.files.get('p.svg')).toContain('>Difference by speed</title>');
    expect(await main(['pulls', 'a.csv', '--report', 'a.csv', '--force'], w.io)).toBe(EXIT.file);
    expect(w.files.get('a.csv')).toBe(sheet);
  });
});
