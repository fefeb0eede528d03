/** The built command where the system fails it: no room on the disk, a folder that takes nothing, little memory, two at once. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const program = join(root, 'packages/cli/bin/valvetide.js');
const minimum = join(root, 'examples/minimum/engine.yaml');
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-faults-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function bash(line: string) {
  const env = { ...process.env, NO_COLOR: '1', TMPDIR: folder };
  return spawnSync('bash', ['-c', line], { cwd: folder, encoding: 'utf8', env });
}

const command = `node '${program}'`;

describe('a disk without room', () => {
  it('for standard output is told, with exit code 4', () => {
    const { status, stderr } = bash(`${command} inspect '${minimum}' --json > /dev/full`);
    expect(status).toBe(4);
    expect(stderr).toMatch(/^standard output: can't be written \(the disk is full\)$/mu);
  });

  it('for a device that a result goes to is told likewise', () => {
    const { status, stderr } = bash(`${command} inspect '${minimum}' --json -o /dev/full`);
    expect(status).toBe(4);
    expect(stderr).toMatch(/^\/dev\/full: can't be written \(the disk is full\)\nthe result is kept in /mu);
  });

  it('in the middle of a file leaves the old one as it was, and no half of the new', () => {
    writeFileSync(join(folder, 'old.json'), 'old');
    // Files of a kilobyte at most: the system refuses what comes after, as a full disk does.
    const { status, stderr } = bash(
      `ulimit -f 1; ${command} schema -o old.json --force; echo "ended $?" >&2; ls -a >&2`,
    );
    expect(status).toBe(0);
    expect(stderr).toMatch(/old\.json: can't be written \(.*\)\n/u);
    expect(stderr).toContain('ended 4');
    expect(readFileSync(join(folder, 'old.json'), 'utf8')).toBe('old');
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  });
});

describe('a folder that takes no file', () => {
  it.each([['none/result.json'], ['old.json/result.json']])(
    'is told before any work is done: %s',
    (output) => {
      const { status, stderr } = bash(
        `${command} sweep '${minimum}' --vary cam.advance=0,2deg --rpm 4000 --journal work.ndjson -o ${output}`,
      );
      expect(status).toBe(4);
      expect(stderr).toContain(`${output}: can't be `);
      // The journal holds each forecast as it is done.
      const journal = join(folder, 'work.ndjson');
      expect(existsSync(journal) ? readFileSync(journal, 'utf8') : '').not.toContain('{"key"');
    },
  );
});

describe('a folder that refuses when the work is done', () => {
  it('is told, and the result is kept elsewhere', () => {
    const { status, stderr } = bash(`${command} inspect '${minimum}' --json -o /proc/result.json`);
    expect(status).toBe(4);
    const kept = /^the result is kept in (.*)$/mu.exec(stderr)?.[1] ?? '';
    expect(JSON.parse(readFileSync(kept, 'utf8'))).toHaveProperty('schemaVersion');
  });
});

describe('two processes with one output', () => {
  it('give one whole file and one refusal', async () => {
    const words = [program, 'inspect', minimum, '--json', '-o', 'both.json'];
    const codes = await Promise.all(
      [1, 2].map(
        () =>
          new Promise<number | null>((done) => {
            const env = { ...process.env, TMPDIR: folder };
            spawn('node', words, { cwd: folder, stdio: 'ignore', env }).on('close', done);
          }),
      ),
    );
    expect([...codes].sort()).toEqual([0, 4]);
    expect(JSON.parse(readFileSync(join(folder, 'both.json'), 'utf8'))).toHaveProperty('schemaVersion');
  });
});

describe('little memory', () => {
  it('of 32 MB is enough for a forecast', () => {
    const { status, stdout } = bash(
      `node --max-old-space-size=32 '${program}' forecast '${minimum}' --rpm 3000 --csv`,
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/^rpm,/u);
  });

  it('of a megabyte ends the process and leaves no file', () => {
    const { status } = bash(
      `node --max-old-space-size=1 --max-semi-space-size=1 '${program}' forecast '${minimum}' --rpm 3000 -o little.txt`,
    );
    expect(status).not.toBe(0);
    expect(existsSync(join(folder, 'little.txt'))).toBe(false);
  });

  it('of 64 MB ends a thread that asks for more, and the study with it: it does not wait for ever', () => {
    writeFileSync(
      join(folder, 'greedy.mjs'),
      'export function work() { const all = []; for (;;) all.push(new Array(1e5).fill(1)); }',
    );
    writeFileSync(
      join(folder, 'study.mjs'),
      `import { openRunner } from '${join(root, 'packages/cli/dist/workers/jobRunner.js')}';
       const runner = await openRunner(2, { worker: new URL('./greedy.mjs', import.meta.url) });
       try { await runner.run([{ rpm: [3000] }]); }
       catch (error) { console.log(error.code); }
       await runner.close();`,
    );
    const { status, stdout } = bash('node --max-old-space-size=64 study.mjs');
    expect([status, stdout]).toEqual([0, 'ERR_WORKER_OUT_OF_MEMORY\n']);
  });
});
