/** Studies shared among processes, and resumed after one was killed, by the built command. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const program = join(root, 'packages/cli/bin/valvetide.js');
const minimum = join(root, 'examples/minimum/engine.yaml');
const SWEEP = ['sweep', minimum, '--vary', 'exhaust.primary.length=28:36:2in', '--rpm', '4000'];
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-shares-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function valvetide(words: readonly string[]): string {
  const { stdout, stderr, status } = spawnSync('node', [program, ...words], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(status, stderr).toBe(0);
  return stdout;
}

const entries = (name: string): number =>
  existsSync(join(folder, name)) ? readFileSync(join(folder, name), 'utf8').split('{"key"').length - 1 : 0;

describe('shares that GNU parallel starts', () => {
  it('give the bytes of one process, each forecast done once', () => {
    const command = ['node', program, ...SWEEP, '--workers', '1', '--shard', '{}/3', '-o', 'part{}.ndjson'];
    const line = command.map((word) => (word.includes('{}') ? word : `'${word}'`)).join(' ');
    const { status, stderr } = spawnSync('parallel', ['-j2', line, ':::', '1', '2', '3'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(status, stderr).toBe(0);
    const parts = ['part1.ndjson', 'part2.ndjson', 'part3.ndjson'];
    // The engine as it is and five lengths.
    expect(parts.map(entries)).toEqual([2, 2, 2]);
    const joined = valvetide([...SWEEP, '--json', ...parts.flatMap((part) => ['--parts', part])]);
    expect(joined).toBe(valvetide([...SWEEP, '--json']));
  }, 120_000);
});

describe('a process that is killed', () => {
  it('leaves a journal that another one goes on with, to the same bytes', async () => {
    const words = [...SWEEP, '--journal', 'killed.ndjson'];
    const child = spawn('node', [program, ...words, '--workers', '1'], { cwd: folder, stdio: 'ignore' });
    while (entries('killed.ndjson') < 2 && child.exitCode === null) await wait(20);
    child.kill('SIGKILL');
    await new Promise((resolve) => child.once('exit', resolve));
    const kept = entries('killed.ndjson');
    expect(kept).toBeGreaterThanOrEqual(2);
    expect(kept).toBeLessThan(6);
    expect(valvetide([...words, '--json'])).toBe(valvetide([...SWEEP, '--json']));
    expect(entries('killed.ndjson')).toBeGreaterThanOrEqual(6);
  }, 120_000);
});
