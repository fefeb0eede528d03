import type { Problem } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';
import { fakeCore, sampleCurve } from './sampleCurve.ts';

const words = ['forecast', 'engine.yaml', '--rpm', '3000,4000,5000'];
const files = { 'engine.yaml': '' };
const hostile = '\u001b[31mred\u001b]0;title\u0007\r\u009b2J\u202eback\u2028';
/** Anything a terminal would obey, apart from the line feed that ends a line. */
const obeyed = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

describe('names from a file, on a terminal', () => {
  it('come out spelled in the report, the ledger, the warnings and the JSON', async () => {
    const core = fakeCore({
      forecast: (_c, { rpm }) =>
        sampleCurve(rpm, {
          combination: hostile,
          assumed: [{ path: hostile, value: hostile, unit: hostile, spread: 1, reason: hostile }],
          warnings: [{ code: 'x', path: hostile, message: hostile }],
        }),
    });
    for (const more of [[], ['--verbose'], ['--units', 'si'], ['--json'], ['--csv']]) {
      const w = world({ files, env: { NO_COLOR: '1' } });
      expect(await main([...words, ...more], w.io, core)).toBe(EXIT.ok);
      expect(w.err()).toContain('\\u001b[31mred');
      expect(w.err()).not.toMatch(obeyed);
      expect(w.out().replaceAll('\r\n', '\n')).not.toMatch(obeyed);
    }
  });

  it('come out spelled in problems, one line each whatever is in them', async () => {
    const problem: Problem = {
      file: hostile,
      line: 2,
      column: 1,
      path: hostile,
      code: 'syntax',
      message: `a\n${hostile}`,
      hint: hostile,
    };
    const core = fakeCore({
      readCombination: () => ({ ok: false, problems: [problem, { ...problem, line: null, hint: null }] }),
    });
    for (const more of [[], ['--json']]) {
      const w = world({ files });
      expect(await main([...words, ...more], w.io, core)).toBe(EXIT.input);
      expect(w.err()).not.toMatch(obeyed);
      expect(w.err().trimEnd().split('\n')).toHaveLength(2);
    }
  });

  it.each([
    [[`${hostile}`]],
    [['forecast', `${hostile}.yaml`]],
    [['forecast', 'engine.yaml', `--${hostile}`]],
    [['forecast', 'engine.yaml', '--rpm', hostile]],
    [['forecast', 'engine.yaml', '--units', hostile]],
    [['forecast', 'engine.yaml', hostile]],
    [['init', '-o', `${hostile}/`]],
  ])('come out spelled in complaints about the command line %#', async (typed) => {
    const w = world({ files });
    expect([EXIT.usage, EXIT.file]).toContain(await main(typed, w.io, fakeCore()));
    expect(w.err()).not.toBe('');
    expect(w.err()).not.toMatch(obeyed);
  });
});

describe('colour', () => {
  const coloured = async (options: Parameters<typeof world>[0], more: readonly string[] = []) => {
    const w = world({ files, ...options });
    await main([...words, ...more], w.io, fakeCore());
    return w.out().includes('\u001b[');
  };

  it('is left out for --no-color before the command as for one after it', async () => {
    for (const typed of [
      ['--no-color', ...words],
      [...words, '--no-color'],
    ]) {
      const w = world({ files, stdoutIsTTY: true });
      await main(typed, w.io, fakeCore());
      expect(w.out()).toContain('rpm');
      expect(w.out()).not.toContain('\u001b[');
    }
  });

  it('is for terminals only', async () => {
    expect(await coloured({ stdoutIsTTY: true })).toBe(true);
    expect(await coloured({ stdoutIsTTY: false })).toBe(false);
  });

  it('is off with NO_COLOR, unless it is empty', async () => {
    expect(await coloured({ stdoutIsTTY: true, env: { NO_COLOR: '1' } })).toBe(false);
    expect(await coloured({ stdoutIsTTY: true, env: { NO_COLOR: '' } })).toBe(true);
  });

  it('is off with TERM=dumb and with --no-color', async () => {
    expect(await coloured({ stdoutIsTTY: true, env: { TERM: 'dumb' } })).toBe(false);
    expect(await coloured({ stdoutIsTTY: true }, ['--no-color'])).toBe(false);
  });

  it('is on with FORCE_COLOR where there is no terminal, but NO_COLOR wins', async () => {
    expect(await coloured({ env: { FORCE_COLOR: '1' } })).toBe(true);
    expect(await coloured({ env: { FORCE_COLOR: '0' } })).toBe(false);
    expect(await coloured({ env: { FORCE_COLOR: '1', NO_COLOR: '1' } })).toBe(false);
  });

  it('never goes into a file', async () => {
    const w = world({ files, stdoutIsTTY: true });
    await main([...words, '-o', 'curve.txt'], w.io, fakeCore());
    expect(w.files.get('curve.txt')).not.toContain('\u001b');
  });
});

describe('the report', () => {
  it.each([50, 60, 80, 100, 140, 200])(
    'keeps its tables and its picture within %d columns',
    async (columns) => {
      const w = world({ files, columns });
      await main(words, w.io, fakeCore());
      const lines = w.out().split('\n');
      const body = lines.slice(lines.findIndex((line) => line.startsWith('T torque')));
      for (const line of body) expect(line.length, line).toBeLessThanOrEqual(columns);
    },
  );

  it('marks every speed in the picture with a capital for each curve', async () => {
    const w = world({ files, columns: 80 });
    await main(words, w.io, fakeCore());
    const picture = w
      .out()
      .split('\n')
      .filter((line) => /^ *\d* [|+] /.test(line))
      .join('');
    expect(picture.match(/[TB]/g)).toHaveLength(3);
    expect(picture.match(/[PB]/g)).toHaveLength(3);
  });

  it('has every column of the points with --verbose', async () => {
    const w = world({ files, columns: 80 });
    await main([...words, '--verbose'], w.io, fakeCore());
    for (const name of ['torque', 'residual', 'friction', 'wall heat', 'energy error']) {
      expect(w.out()).toContain(name);
    }
    expect(w.out()).toContain('1.65 times the stroke');
  });

  it('says when a peak lies on the edge of the band', async () => {
    const w = world({ files });
    await main(['forecast', 'engine.yaml', '--rpm', '3000,4000'], w.io, fakeCore());
    expect(w.out().replaceAll(/\s+/gu, ' ')).toContain(
      'torque still rises at the highest speed, 4000 rpm, power still rises at the highest speed, 4000 rpm',
    );
  });

  it('ends with the cautions and the version', async () => {
    const w = world({ files, columns: 200 });
    await main(words, w.io, fakeCore());
    expect(w.out()).toContain('Local codes and licensed practice decide.');
    expect(w.out().trimEnd().split('\n').at(-1)).toBe('valvetide 0.1.0');
  });
});
