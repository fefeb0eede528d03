/** The README's two commands, as printed there, in a clone that holds nothing but what is committed. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
let folder = '';

/** Parts of the one-line `sh` blocks of npm before the first heading, `npm ci && npm start` for one; blocks of the tool itself show what it says. */
function commands(): string[][] {
  const [opening] = readFileSync(join(folder, 'README.md'), 'utf8').split('\n## ');
  return [...opening.matchAll(/^```sh\n(npm .*)\n```$/gm)].map(([, line]) => line.split(' && '));
}

/** Runs one part as a person would: no variable of the test runner's or of the npm above it is handed on. */
function run(part: string): { status: number | null; out: string; err: string } {
  const foreign =
    /^(VITEST|NODE_|npm_(lifecycle|package|command|config_local_prefix|config_prefix|execpath))/;
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !foreign.test(name)));
  const { status, stdout, stderr } = spawnSync('bash', ['-c', part], {
    cwd: folder,
    encoding: 'utf8',
    // What the cache holds need not be fetched anew.
    env: { ...env, npm_config_prefer_offline: 'true', NO_COLOR: '1' },
  });
  return { status, out: stdout, err: stderr };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-fresh-'));
  execFileSync('git', ['clone', '--quiet', '--depth', '1', `file://${root}`, folder]);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

// A minute altogether where the machine is free; each part may take its time where it is not.
describe('the README on a fresh machine', { timeout: 600_000 }, () => {
  it('has two commands, which install first and then start or test', () => {
    expect(commands()).toEqual([
      ['npm ci', 'npm start'],
      ['npm ci', 'npm test'],
    ]);
  });

  it('installs', () => {
    const { status, err } = run(commands()[0][0]);
    expect(status, err).toBe(0);
  });

  it('shows a chart and a table of the forecast', () => {
    const { status, out, err } = run(commands()[0][1]);
    expect(status, err).toBe(0);
    expect(out).toContain('Tern Street six');
    const lines = out.split('\n');
    // The chart marks torque and power by letters between upright edges; the table has a line a speed.
    const chart = lines.filter((line) => /^ *\d* [|+] /.test(line)).join('');
    expect(chart).toMatch(/T/);
    expect(chart).toMatch(/P/);
    const table = lines.filter((line) => /^ *\d{4}( +-?\d+(\.\d+)?){5,}/.test(line));
    expect(table.length).toBeGreaterThan(5);
  });

  it('tests: the script runs and passes', () => {
    // One room is enough here; that all tests pass is found by running them, not by running them twice.
    const { status, out } = run(`${commands()[1][1]} -- packages/core/test/base`);
    expect(status, out).toBe(0);
    expect(out).toMatch(/Tests +\d+ passed/);
  });
});
