import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { faultAddress } from '../src/version.ts';
import { world } from './fakeIo.ts';
import { fakeCore, sampleCurve, samplePoint } from './sampleCurve.ts';

const engine = { 'engine.yaml': 'engine: {}\n' };

describe('valvetide forecast', () => {
  it('leads with the peaks, the reference air and the fidelity', async () => {
    const w = world({ files: engine });
    expect(await main(['forecast', 'engine.yaml', '--rpm', '4000:7500:500'], w.io, fakeCore())).toBe(EXIT.ok);
    expect(w.out().split('\n')[0]).toBe(
      'Peak 612 lb-ft at 5000 rpm, 767 hp at 7500 rpm (60 F / 29.92 inHg dry, representative)',
    );
  });

  it('prints SI on request, with the reference air in SI too', async () => {
    const w = world({ files: engine });
    await main(
      ['forecast', 'engine.yaml', '--rpm', '4000:6000:500', '--units', 'si', '-q'],
      w.io,
      fakeCore(),
    );
    expect(w.out()).toBe(
      'Peak 830 Nm at 5000 rpm, 511 kW at 6000 rpm (15.6 C / 101.3 kPa dry, representative)\n',
    );
  });

  it.each([
    ['J1349', '(77 F / 29.23 inHg dry, representative)'],
    ['none', '(as observed, not corrected, representative)'],
  ] as const)('names the standard %s in the answer', async (standard, basis) => {
    const core = fakeCore({
      forecast: (_c, { rpm }) => sampleCurve(rpm, { correction: { standard, factor: 1 } }),
    });
    const w = world({ files: engine });
    await main(['forecast', 'engine.yaml', '--rpm', '5000,6000', '--quiet'], w.io, core);
    expect(w.out()).toContain(basis);
  });

  it('says which band it chose and why when none was named', async () => {
    const w = world({ files: engine });
    await main(['forecast', 'engine.yaml'], w.io, fakeCore());
    expect(w.out().replaceAll('\n', ' ')).toContain(
      'Band 3000 to 7000 rpm by 500, chosen for the test; --rpm names another.',
    );
  });

  it('says why it tells no uncertainty, where an estimate lies beyond what a file may state', async () => {
    const problem = {
      code: 'out-of-range',
      file: 'engine.yaml',
      line: null,
      column: null,
      path: 'induction.runner.exitArea',
      message: 'is impossible',
      hint: null,
    } as const;
    const core = fakeCore({ pinBaseline: () => ({ ok: false, problems: [problem] }) });
    const w = world({ files: engine });
    expect(await main(['forecast', 'engine.yaml', '--rpm', '5000,6000'], w.io, core)).toBe(EXIT.ok);
    expect(w.err()).toContain(
      'warning: no uncertainty is told: engine.yaml induction.runner.exitArea is impossible',
    );
    const quick = world({ files: engine });
    await main(['forecast', 'engine.yaml', '--rpm', '5000,6000', '--quick'], quick.io, core);
    expect(quick.err()).not.toContain('no uncertainty');
  });

  it('passes speeds and fidelity to the library', async () => {
    const asked: unknown[] = [];
    const core = fakeCore({
      forecast: (_c, { rpm, fidelity }) => {
        asked.push(rpm, fidelity);
        return sampleCurve(rpm);
      },
    });
    const w = world({ files: engine });
    await main(['forecast', 'engine.yaml', '--rpm', '3000:4000:500', '--fidelity', 'all'], w.io, core);
    expect(asked).toEqual([[3000, 3500, 4000], 'all']);
  });

  it('reads standard input for -', async () => {
    let text = '';
    const core = fakeCore({
      readCombination: (given, options) => {
        text = `${options?.file}: ${given}`;
        return fakeCore().readCombination(given, options);
      },
    });
    const w = world({ stdin: 'engine: {}' });
    expect(await main(['forecast', '-', '--rpm', '3000,4000'], w.io, core)).toBe(EXIT.ok);
    expect(text).toBe('standard input: engine: {}');
  });

  it('reads sheets beside the combination file', async () => {
    const core = fakeCore({
      readCombination: (given, options) => {
        expect(options?.sheet?.('flow.csv')).toBe('lift,flow');
        return fakeCore().readCombination(given, options);
      },
    });
    const w = world({ files: { 'build/engine.yaml': '', 'build/flow.csv': 'lift,flow' } });
    expect(await main(['forecast', 'build/engine.yaml', '--rpm', '3000,4000'], w.io, core)).toBe(EXIT.ok);
  });

  it('writes what -o names and nothing to standard output', async () => {
    const w = world({ files: engine });
    await main(
      ['forecast', 'engine.yaml', '--rpm', '3000:6000:500', '--json', '-o', 'out.json'],
      w.io,
      fakeCore(),
    );
    expect(w.out()).toBe('');
    expect(JSON.parse(w.files.get('out.json') ?? '')).toMatchObject({ schemaVersion: 1 });
    expect([...w.files.keys()]).toEqual(['engine.yaml', 'out.json']);
  });

  it('leaves a file alone that is already there, before it computes anything', async () => {
    const core = fakeCore({
      forecast: () => {
        throw new Error('must not be asked');
      },
    });
    const w = world({ files: { ...engine, 'out.json': 'precious' } });
    const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000', '--json', '-o', 'out.json'];
    expect(await main(words, w.io, core)).toBe(EXIT.file);
    expect(w.files.get('out.json')).toBe('precious');
    expect(w.err()).toBe('out.json: already there and left alone (--force replaces it)\n');
    expect(await main([...words, '--force'], w.io, fakeCore())).toBe(EXIT.ok);
    expect(w.files.get('out.json')).not.toBe('precious');
  });

  it('never writes over a file it read, even with --force', async () => {
    const core = fakeCore({
      readCombination: (given, options) => {
        options?.sheet?.('flow.csv');
        return fakeCore().readCombination(given, options);
      },
    });
    for (const target of ['engine.yaml', './engine.yaml', 'flow.csv']) {
      const w = world({ files: { ...engine, 'flow.csv': 'lift' } });
      const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000', '-o', target, '--force'];
      expect(await main(words, w.io, core)).toBe(EXIT.file);
      expect(w.files.get('engine.yaml')).toBe(engine['engine.yaml']);
      expect(w.files.get('flow.csv')).toBe('lift');
    }
  });

  it('draws progress on a terminal only, and wipes it away', async () => {
    const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000', '--json'];
    const silent = world({ files: engine });
    await main(words, silent.io, fakeCore());
    expect(silent.err()).toBe('');
    const seen = world({ files: engine, stderrIsTTY: true });
    await main(words, seen.io, fakeCore());
    expect(seen.err()).toContain('2 of 2 speeds');
    expect(seen.err()).toMatch(/\r +\r$/);
    const dumb = world({ files: engine, stderrIsTTY: true, env: { TERM: 'dumb' } });
    await main(words, dumb.io, fakeCore());
    expect(dumb.err()).toBe('');
  });

  it('repeats warnings on standard error unless the report goes to the terminal', async () => {
    const warnings = [{ code: 'flow', path: 'heads.intake', message: 'lift beyond the sheet' }];
    const core = fakeCore({ forecast: (_c, { rpm }) => sampleCurve(rpm, { warnings }) });
    const line = 'warning: heads.intake: lift beyond the sheet\n';
    const piped = world({ files: engine });
    expect(await main(['forecast', 'engine.yaml', '--rpm', '3000,4000', '--csv'], piped.io, core)).toBe(
      EXIT.ok,
    );
    expect(piped.err()).toBe(line);
    const shown = world({ files: engine, stdoutIsTTY: true, columns: 100, env: { NO_COLOR: '1' } });
    await main(['forecast', 'engine.yaml', '--rpm', '3000,4000'], shown.io, core);
    expect(shown.err()).toBe('');
    expect(shown.out()).toContain(line);
  });

  it('is 5 under --strict where a warning stands or a speed did not settle, and 0 without', async () => {
    const doubtful = fakeCore({
      forecast: (_c, { rpm }) =>
        sampleCurve(rpm, { warnings: [{ code: 'flow', path: '', message: 'lift beyond the sheet' }] }),
    });
    const unsettled = fakeCore({
      forecast: (_c, { rpm }) =>
        sampleCurve(rpm, {
          points: rpm.map((speed) => samplePoint(speed, { status: speed < 4000 ? 'settled' : 'unsettled' })),
        }),
    });
    const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000'];
    for (const core of [doubtful, unsettled]) {
      expect(await main(words, world({ files: engine }).io, core)).toBe(EXIT.ok);
      expect(await main([...words, '--strict'], world({ files: engine }).io, core)).toBe(EXIT.doubtful);
    }
    expect(await main([...words, '--strict'], world({ files: engine }).io, fakeCore())).toBe(EXIT.ok);
    const w = world({ files: engine });
    await main([...words, '--strict'], w.io, unsettled);
    expect(w.err()).toBe('strict: not settled at 4000 rpm\n');
    expect(w.out()).toContain('4000 ?');
  });

  it('fails loudly rather than print a number that is none', async () => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) {
      const core = fakeCore({
        forecast: (_c, { rpm }) =>
          sampleCurve(rpm, { points: rpm.map((speed) => samplePoint(speed, { imepBar: bad })) }),
      });
      for (const format of ['--json', '--csv']) {
        const w = world({ files: engine });
        const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000', format, '-o', 'out'];
        expect(await main(words, w.io, core)).toBe(EXIT.failure);
        expect(w.files.has('out')).toBe(false);
        expect(w.err()).toContain('not a finite number');
      }
    }
  });

  it('is 130 when interrupted, and writes nothing', async () => {
    const controller = new AbortController();
    const core = fakeCore({
      forecastOn: async (_o, _w, _c, { signal, rpm }) => {
        controller.abort();
        if (signal?.aborted !== true) throw new Error('the signal was not passed on');
        return { ...sampleCurve(rpm.slice(0, 1)), complete: false };
      },
    });
    const w = world({ files: engine, signal: controller.signal });
    const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000', '-o', 'out.txt'];
    expect(await main(words, w.io, core)).toBe(EXIT.interrupted);
    expect(w.files.has('out.txt')).toBe(false);
    expect(w.err()).toBe('interrupted, nothing written\n');
  });

  it('is 1 on a fault of its own, whose stack is kept in a file it names', async () => {
    const core = fakeCore({
      forecast: () => {
        throw new Error('a hole\nin the floor');
      },
    });
    const w = world({ files: engine });
    expect(await main(['forecast', 'engine.yaml', '--rpm', '3000,4000'], w.io, core)).toBe(EXIT.failure);
    expect(w.err()).toBe(
      'unexpected failure, a fault of the program: a hole\\u000ain the floor\n' +
        `its traces are in /tmp/fault.txt; please report them at ${faultAddress()}\n`,
    );
    const kept = w.files.get('/tmp/fault.txt') ?? '';
    expect(kept).toContain('["forecast","engine.yaml","--rpm","3000,4000"]');
    expect(kept).toContain('Error: a hole\nin the floor');
    expect(kept).toMatch(/^ {4}at .*forecast\.test\.ts:/m);
    const full = world({ files: engine, refused: { '/tmp/fault.txt': 'ENOSPC' } });
    expect(await main(['forecast', 'engine.yaml', '--rpm', '3000,4000'], full.io, core)).toBe(EXIT.failure);
    expect(full.err()).toMatch(/in the floor\nPlease report it at \S+\n$/);
  });

  it('is 4 where a file can not be read or written', async () => {
    const missing = world();
    expect(await main(['forecast', 'none.yaml'], missing.io, fakeCore())).toBe(EXIT.file);
    expect(missing.err()).toBe("none.yaml: can't be read (no such file or folder)\n");
    const full = world({ files: engine, refused: { 'out.csv': 'ENOSPC' } });
    const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000', '--csv', '-o', 'out.csv'];
    expect(await main(words, full.io, fakeCore())).toBe(EXIT.file);
    expect(full.err()).toBe(
      "out.csv: can't be written (the disk is full)\nthe result is kept in /tmp/result/out.csv\n",
    );
    expect(full.files.get('/tmp/result/out.csv')).toMatch(/^rpm,/);
    const fuller = world({ files: engine, refused: { 'out.csv': 'ENOSPC', '/tmp/result': 'ENOSPC' } });
    expect(await main(words, fuller.io, fakeCore())).toBe(EXIT.file);
    expect(fuller.err()).toBe("out.csv: can't be written (the disk is full)\n");
    const folder = world({ files: engine });
    expect(await main([...words.slice(0, -1), 'results/'], folder.io, fakeCore())).toBe(EXIT.file);
  });
});
