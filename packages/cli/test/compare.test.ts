import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { studyCore } from './studies.ts';

const engine = (name: string, primary: string): string => `
name: ${name}
engine: { bore: 4.000 in, stroke: 3.480 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
exhaust: { style: headers, primary: { length: ${primary} } }
`;

const changes = `
changes:
  - { name: Longer, set: { exhaust.primary.length: 30 in } }
  - { name: Shorter, add: { exhaust.primary.length: -3 in } }
`;

const files = {
  'a.yaml': engine('As bought', '34 in'),
  'b.yaml': engine('New headers', '31 in'),
  'changes.yaml': changes,
};

const SPEEDS = ['--rpm', '3000:6000:1000'];

describe('valvetide compare', () => {
  it('leads with the best of the files, by how much and over which band', async () => {
    const w = world({ files });
    expect(await main(['compare', 'a.yaml', 'b.yaml', ...SPEEDS], w.io, studyCore())).toBe(EXIT.ok);
    const out = w.out().replaceAll('\n', ' ');
    // 30 N m more everywhere are 135 of the 3033 N m 1000/min that the first has in the mean.
    expect(out).toContain(
      'Best over 3000 to 6000 rpm: New headers, +19.0 hp (+4.5 %) mean power against As bought',
    );
    expect(out).toContain('Corrected to SAE J607 practice, 60 F / 29.92 inHg dry; representative;');
  });

  it('names the best that fuel and stated limits allow, and says what a better one breaks', async () => {
    const limited = `${engine('As bought', '34 in')}fuel: pump-87\nlimits: { redline: 5500 rpm }\n`;
    const w = world({
      files: {
        ...files,
        'a.yaml': limited,
        'more.yaml': `
changes:
  - { name: Domed, set: { exhaust.primary.length: 30 in }, add: { chamber.compression: 3 } }
  - { name: Shorter, add: { exhaust.primary.length: -1 in } }
`,
      },
    });
    const words = ['compare', 'a.yaml', '--changes', 'more.yaml'];
    expect(await main([...words, '--rpm', '3000:5000:1000'], w.io, studyCore())).toBe(EXIT.ok);
    const out = w.out().replaceAll('\n', ' ');
    expect(out).toMatch(
      /^Best over 3000 to 5000 rpm: Shorter, \+\d.* mean power against As bought\. Domed makes more, \+\d.*, but breaks a limit: best timing at 3000 rpm asks for 98 octane, pump-87 has 87; a gap of 4 at most is allowed \(limits\.octaneMargin sets it\)/,
    );
    expect(out).toContain('a Domed !');
    expect(out).toContain('! breaks a limit, see the warnings');
    const beyond = world({ files: { ...files, 'a.yaml': limited } });
    await main(['compare', 'a.yaml', 'b.yaml', ...SPEEDS, '--json'], beyond.io, studyCore());
    // The power of both still rises at 6000; only the first states a redline.
    expect(JSON.parse(beyond.out())).toMatchObject({
      best: 'New headers',
      entries: [
        { breaches: [{ limit: 'redline', value: 6000, allowed: 5500, stated: true }] },
        { breaches: [] },
      ],
    });
  });

  it('says of the best change how sure its gain is and what to measure first, unless asked to be quick', async () => {
    const w = world({ files });
    const words = ['compare', 'a.yaml', '--changes', 'changes.yaml', ...SPEEDS];
    await main(words, w.io, studyCore());
    const out = w.out().replaceAll('\n', ' ');
    expect(out).toMatch(/The gain of Longer is known to \+\/- \d\.\d % \(one standard deviation\)\./);
    const whole = world({ files });
    await main([...words, '--json'], whole.io, studyCore());
    expect(JSON.parse(whole.out()).bestGain).toMatchObject({ change: 'Longer' });
    const quick = world({ files });
    await main([...words, '--quick', '--json'], quick.io, studyCore());
    expect(JSON.parse(quick.out())).not.toHaveProperty('bestGain');
  });

  it('sets each change against the engine as it is, in SI if asked', async () => {
    const w = world({ files });
    const words = ['compare', 'a.yaml', '--changes', 'changes.yaml', ...SPEEDS, '--units', 'si', '-q'];
    expect(await main(words, w.io, studyCore())).toBe(EXIT.ok);
    expect(w.out().replaceAll('\n', ' ')).toBe(
      'Best over 3000 to 6000 rpm: Longer, +15.1 kW (+4.7 %) mean power against As bought ',
    );
  });

  it('leaves a change without effect out, says so with its line, and answers for the others', async () => {
    const idle = `${changes}  - { name: Same again, set: { exhaust.primary.length: 34 in } }\n`;
    const w = world({ files: { ...files, 'changes.yaml': idle } });
    const words = ['compare', 'a.yaml', '--changes', 'changes.yaml', ...SPEEDS];
    expect(await main(words, w.io, studyCore())).toBe(EXIT.ok);
    expect(w.out()).not.toContain('Same again');
    expect(w.err()).toContain(
      "changes.yaml:5:32 exhaust.primary.length has no effect: with exhaust.primary.length as 'Same again' has it, the engine is the same; left out",
    );
  });

  it('says so where nothing beats the first', async () => {
    const w = world({ files });
    await main(['compare', 'b.yaml', 'a.yaml', ...SPEEDS, '-q'], w.io, studyCore());
    expect(w.out().replaceAll('\n', ' ')).toContain(
      'None makes more than New headers over 3000 to 6000 rpm: nearest As bought, -19.0 hp',
    );
  });

  it('shows the area under the curve, which says the same as the mean, only where every column is asked for', async () => {
    const shown = async (...more: readonly string[]): Promise<string> => {
      const w = world({ files, columns: 160 });
      expect(await main(['compare', 'a.yaml', 'b.yaml', ...SPEEDS, ...more], w.io, studyCore())).toBe(
        EXIT.ok,
      );
      return w.out();
    };
    expect(await shown()).not.toMatch(/\barea\b/);
    expect(await shown('--verbose')).toMatch(/\barea\b/);
  });

  it('counts only the band, by speed or by time', async () => {
    const w = world({ files });
    const words = [
      'compare',
      'a.yaml',
      'b.yaml',
      ...SPEEDS,
      '--band',
      '4000:5000',
      '--weighting',
      'time',
      '--json',
    ];
    await main(words, w.io, studyCore());
    const result = JSON.parse(w.out());
    expect(result).toMatchObject({
      schemaVersion: 1,
      complete: true,
      reference: 'As bought',
      best: 'New headers',
      band: { fromRpm: 4000, toRpm: 5000 },
      weighting: 'time',
    });
    // Weighted by 1/T the mean of two ends is their harmonic mean: 718 and 698 against 688 and 668 N m.
    const harmonic = (a: number, b: number): number => 2 / (1 / a + 1 / b);
    expect(result.entries[1].gain.band.torqueNm).toBeCloseTo(harmonic(718, 698) - harmonic(688, 668), 9);
  });

  it('covers a band in round steps where no speeds are named', async () => {
    const w = world({ files });
    await main(['compare', 'a.yaml', 'b.yaml', '--band', '3200:7100', '--json'], w.io, studyCore());
    expect(JSON.parse(w.out()).rpm).toEqual([3200, 3700, 4200, 4700, 5200, 5700, 6200, 6700, 7100]);
  });

  it('tells two files of one name apart by their paths', async () => {
    const w = world({ files: { ...files, 'c.yaml': engine('As bought', '33 in') } });
    await main(['compare', 'a.yaml', 'c.yaml', 'a.yaml', ...SPEEDS, '--json'], w.io, studyCore());
    const names = JSON.parse(w.out()).entries.map(({ name }: { name: string }) => name);
    expect(names).toEqual(['As bought (a.yaml)', 'As bought (c.yaml)', 'As bought (a.yaml, 2)']);
  });

  it('gives CSV with a line for each combination and speed', async () => {
    const w = world({ files });
    await main(['compare', 'a.yaml', 'b.yaml', ...SPEEDS, '--csv'], w.io, studyCore());
    const lines = w.out().trimEnd().split('\r\n');
    expect(lines).toHaveLength(1 + 2 * 4);
    expect(lines[0]).toContain('combination,rpm,torqueNm,powerKw');
    expect(lines[5]).toMatch(/^New headers,3000,738/);
  });

  it('uses the workers asked for, and closes them', async () => {
    const core = studyCore();
    await main(['compare', 'a.yaml', 'b.yaml', ...SPEEDS, '--workers', '3', '-q'], world({ files }).io, core);
    expect(core.asked).toEqual([{ workers: 3, closed: true }]);
  });

  it('shows how far it is on a terminal, with the time left', async () => {
    const w = world({ files, stderrIsTTY: true });
    await main(['compare', 'a.yaml', 'b.yaml', ...SPEEDS], w.io, studyCore());
    expect(w.err()).toContain('1 of 2 forecasts, a few seconds left');
    expect(w.err().endsWith('\r')).toBe(true);
  });

  it('after Ctrl-C shows what is done and says that it was interrupted', async () => {
    const w = world({ files });
    const words = ['compare', 'a.yaml', '--changes', 'changes.yaml', ...SPEEDS];
    expect(await main(words, w.io, studyCore(undefined, 2))).toBe(EXIT.interrupted);
    expect(w.out()).toContain('Interrupted: 2 of 3 were forecast.');
    expect(w.out()).toContain('not run');
    expect(w.err()).toContain('interrupted: 2 of 3 forecasts done');
  });

  it('after Ctrl-C with nothing done writes nothing', async () => {
    const w = world({ files });
    const words = ['compare', 'a.yaml', 'b.yaml', ...SPEEDS, '-o', 'out.txt'];
    expect(await main(words, w.io, studyCore(undefined, 0))).toBe(EXIT.interrupted);
    expect([w.out(), w.err(), w.files.has('out.txt')]).toEqual(['', 'interrupted, nothing written\n', false]);
  });

  it('with --strict exits 5 where a warning stands', async () => {
    const w = world({ files });
    const core = studyCore();
    const strict = ['compare', 'a.yaml', 'b.yaml', ...SPEEDS, '--strict', '-q'];
    expect(await main(strict, w.io, core)).toBe(EXIT.ok);
    const warned: typeof core = {
      ...core,
      compare: async (...given) => {
        const result = await core.compare(...given);
        if (!result.ok) return result;
        const entries = result.value.entries.map((entry) => ({ ...entry, cautions: ['takes care'] }));
        return { ok: true, value: { ...result.value, entries } };
      },
    };
    expect(await main(strict, w.io, warned)).toBe(EXIT.doubtful);
    expect(w.err()).toBe('strict: 1 warning\n');
  });

  it('looks for a sheet that a change names beside the engine, then beside the changes', async () => {
    const sheet = 'lift in,intake cfm,exhaust cfm\n0.1,60,50\n0.3,150,120\n0.5,180,140\n';
    const swap = 'changes: [{ name: Sheet, set: { heads.flow: new.csv } }]';
    for (const place of ['cars/new.csv', 'lists/new.csv']) {
      const w = world({ files: { 'cars/a.yaml': files['a.yaml'], 'lists/c.yaml': swap, [place]: sheet } });
      const words = ['compare', 'cars/a.yaml', '--changes', 'lists/c.yaml', ...SPEEDS, '-q'];
      expect(await main(words, w.io, studyCore()), w.err()).toBe(EXIT.ok);
    }
  });
});

describe('valvetide compare refuses', () => {
  const refused = async (...words: readonly string[]): Promise<string> => {
    const w = world({
      files: { ...files, 'bad.yaml': 'changes: [{ name: a, set: { exhaust.primry.length: 3 in } }]' },
    });
    const code = await main(['compare', ...words], w.io, studyCore());
    return `${code} ${w.err().split('\n')[0]}`;
  };

  it('one file alone, two with changes, and standard input twice', async () => {
    expect(await refused('a.yaml')).toBe(
      '2 compare needs two combination files or more, or one with --changes',
    );
    expect(await refused('a.yaml', 'b.yaml', '--changes', 'changes.yaml')).toBe(
      '2 with --changes, compare takes one combination file',
    );
    expect(await refused('-', '-')).toBe('2 standard input can be read only once: name - once');
    expect(await refused('-', '--changes', '-')).toBe('2 standard input can be read only once: name - once');
  });

  it('a path that no combination has, with the nearest', async () => {
    expect(await refused('a.yaml', '--changes', 'bad.yaml')).toBe(
      '3 bad.yaml:1:29 exhaust.primry.length is not a field of a combination (did you mean exhaust.primary.length?)',
    );
  });

  it('a band and workers that make no sense', async () => {
    expect(await refused('a.yaml', 'b.yaml', '--band', '7000')).toContain('write from:to, such as 3500:7000');
    expect(await refused('a.yaml', 'b.yaml', '--band', '7000:3000')).toContain('must end above its start');
    expect(await refused('a.yaml', 'b.yaml', ...SPEEDS, '--band', '7000:8000')).toContain(
      'none of the speeds',
    );
    expect(await refused('a.yaml', 'b.yaml', ...SPEEDS, '--workers', '0')).toContain('1 to 256');
  });

  it('a file it reads as the one to write', async () => {
    expect(await refused('a.yaml', '--changes', 'changes.yaml', '-o', 'changes.yaml', '--force')).toContain(
      '4 changes.yaml: is read by this command',
    );
  });
});
