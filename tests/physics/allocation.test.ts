/** The march allocates nothing: what it puts on the heap has to be collected while the march waits. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

let folder = '';
let probe = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-heap-'));
  probe = join(folder, 'probe.mjs');
  const build = await rolldown({
    input: fileURLToPath(new URL('./allocationProbe.ts', import.meta.url)),
    platform: 'node',
    resolve: { conditionNames: ['@valvetide/source'] },
  });
  await build.write({ file: probe });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Bytes of a number on the heap; a step asks for a thousand and more numbers. */
const NUMBER = 16;

describe('the march', () => {
  // An argument or a result of a function is put on the heap where the compiler doesn't join the function into the one that calls it.
  // In a process of its own, since what others taught the compiler would make it join less.
  it('puts nothing on the heap in a step', () => {
    const { stdout, stderr } = spawnSync(process.execPath, [probe], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^\d/);
    expect(Number(stdout)).toBeLessThan(NUMBER / 10);
  });
});
