/** The march allocates next to nothing: what it puts on the heap has to be collected while the march waits. */
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

/** Bytes of a number on the heap. */
const NUMBER = 16;

describe('the march', () => {
  // An argument or a result that the compiler leaves a number between two functions is put on the heap: between one and six of the laws
  // that a cylinder asks, as the compiler joins them, none of ducts, ends and steps. A small object an end of a duct alone makes fifteen.
  // In a process of its own, since what others taught the compiler makes it leave more.
  it('puts at most eight numbers a marching cylinder on the heap in a right-hand side', () => {
    const { stdout, stderr } = spawnSync(process.execPath, [probe], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(Number(stdout)).toBeGreaterThan(0);
    expect(Number(stdout)).toBeLessThan(8 * NUMBER);
  });
});
