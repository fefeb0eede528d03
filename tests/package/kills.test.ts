/** The built command's way of writing, killed at any moment: whoever looks finds the old file or the new one, whole. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';

const KILLS = 200;
const SIZE = 4_000_000;
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-kills-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Writes one whole text after another, in place of the last, and says when it begins. */
const WRITER = `
import { writeWhole } from '${join(import.meta.dirname, '../../packages/cli/dist/output/writeWhole.js')}';
process.stdout.write('ready');
for (let i = 0; ; i++) writeWhole(process.argv[1], String(i % 10).repeat(${SIZE}), 'replace');
`;

it(`is never half a file after ${KILLS} kills`, { timeout: 300_000 }, async () => {
  const target = join(folder, 'result');
  writeFileSync(target, 'x'.repeat(SIZE));
  let during = 0;
  for (let kill = 0; kill < KILLS; kill++) {
    const child = spawn('node', ['--input-type=module', '-e', WRITER, target], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const gone = new Promise((resolve) => child.once('close', resolve));
    await new Promise((resolve) => child.stdout.once('data', resolve));
    // Steps of 7 from 0 to 48 ms: a write of this size takes several.
    await wait((kill * 7) % 49);
    child.kill('SIGKILL');
    await gone;
    const text = readFileSync(target, 'utf8');
    expect(text.length).toBe(SIZE);
    expect(text).toBe(text[0].repeat(SIZE));
    if (text[0] !== 'x') during += 1;
  }
  // Kills before the first write would prove nothing.
  expect(during).toBeGreaterThan(KILLS / 2);
});
