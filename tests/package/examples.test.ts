/** The programs under examples/ as a reader starts them, on the built library. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-examples-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function node(...words: readonly string[]) {
  return spawnSync('node', words, { cwd: root, encoding: 'utf8' });
}

describe('examples/rank-in-threads.mjs', () => {
  it('ranks two changes in its threads', () => {
    const { status, stdout, stderr } = node('examples/rank-in-threads.mjs');
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Ranked\.\n/);
    expect(stdout).toMatch(/^Longer pipe: -?\d+\.\d\d % of mean power, \+\/- \d+\.\d\d %$/m);
    expect(stdout).toMatch(/^Skimmed head: \d+\.\d\d % of mean power, \+\/- \d+\.\d\d %$/m);
    expect(stdout).toMatch(/^- Baseline: the engine as it stands$/m);
  });

  it('stops where it is told to, with the gains that were done', () => {
    const { status, stdout } = node('examples/rank-in-threads.mjs', '--stop', '6');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Stopped: /);
    expect(stdout).toContain('not worked out');
  });
});

describe('examples/results-table.mjs', () => {
  it('reads what compare wrote, a line for each combination and speed', () => {
    const results = join(folder, 'results.json');
    const words = ['examples/minimum/engine.yaml', 'examples/scrambler/engine.yaml', '--rpm', '4000,5000'];
    const compared = node(
      'packages/cli/bin/valvetide.js',
      'compare',
      ...words,
      '--json',
      '-q',
      '-o',
      results,
    );
    expect(compared.status).toBe(0);
    const { status, stdout } = node('examples/results-table.mjs', results);
    expect(status).toBe(0);
    const lines = stdout.trimEnd().split('\n');
    expect(lines[0].split('\t')).toEqual(['combination', 'rpm', 'torqueNm', 'powerKw', 'gainPct', 'allowed']);
    expect(lines).toHaveLength(5);
    const cells = lines.slice(1).map((line) => line.split('\t'));
    expect(cells.map(([, rpm]) => rpm)).toEqual(['4000', '5000', '4000', '5000']);
    // Power is torque times speed.
    for (const [, rpm, torque, power] of cells)
      expect(Number(power)).toBeCloseTo((Number(torque) * Number(rpm) * Math.PI) / 30_000, 1);
  });

  it('refuses results of another command', () => {
    const other = node('packages/cli/bin/valvetide.js', 'inspect', 'examples/minimum/engine.yaml', '--json');
    const refused = spawnSync('node', ['examples/results-table.mjs'], {
      cwd: root,
      input: other.stdout,
      encoding: 'utf8',
    });
    expect(refused.status).not.toBe(0);
    expect(refused.stderr).toContain('this reads results of compare');
  });
});

describe('the schemas of results', () => {
  it('are as the types of the results are', () => {
    const { status, stderr } = node('tools/resultSchemas.mjs', '--check');
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });
});

describe('examples/embed.mjs', () => {
  it('prints two curves side by side', () => {
    const { status, stdout } = node('examples/embed.mjs');
    expect(status).toBe(0);
    expect(stdout).toMatch(/rpm +9\.5:1 +11:1 +change/);
  });
});

describe('the programs in the READMEs and in the guide to the library', () => {
  it.each(['README.md', 'packages/core/README.md', 'docs/guide/embedding.md'])(
    '%s: runs, and prints figures',
    (page) => {
      const programs = [...readFileSync(join(root, page), 'utf8').matchAll(/```js\n(.*?)```/gs)];
      expect(programs).toHaveLength(1);
      const { status, stdout, stderr } = spawnSync('node', ['--input-type=module', '-'], {
        cwd: root,
        input: programs[0][1],
        encoding: 'utf8',
      });
      expect(stderr).toBe('');
      expect(status).toBe(0);
      expect(stdout).toMatch(/\d{2}/);
    },
  );
});
