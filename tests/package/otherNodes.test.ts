/** The built command on the oldest and the newest Node that the manifests promise, beside the one that runs the tests. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const program = join(root, 'packages/cli/bin/valvetide.js');
const engine = join(root, 'examples/minimum/engine.yaml');
/** Of each line that is looked after: 22.11 is the first of its line with long support. */
const VERSIONS = ['20.19.0', '22.11.0', '24.9.0'];
/** What the program of Node for this machine is called in the registry. */
const NAME = `node-${process.platform === 'win32' ? 'win' : process.platform}-${process.arch}`;
const WORDS = ['forecast', engine, '--rpm', '3000,5500', '--quick', '--json'];
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-nodes-'));
  const parts = VERSIONS.map((version) => `node-${version}@npm:${NAME}@${version}`);
  execFileSync(
    'npm',
    ['install', '--prefix', folder, '--no-save', '--ignore-scripts', '--prefer-offline', ...parts],
    {
      stdio: 'ignore',
    },
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Answer {
  readonly points: readonly { readonly status: string; readonly torqueNm: number }[];
}

const run = (node: string, words: readonly string[]): string =>
  execFileSync(node, [program, ...words], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });

describe.each(VERSIONS)('Node %s', (version) => {
  const node = () => join(folder, `node_modules/node-${version}/bin/node`);

  it('is the one that was asked for', () => {
    expect(execFileSync(node(), ['--version'], { encoding: 'utf8' }).trim()).toBe(`v${version}`);
  });

  it('makes the same torque to 1e-9: its sines and powers differ in the last digits, which moved it by 2e-13 at most where that was looked at', () => {
    const here: Answer = JSON.parse(run(process.execPath, WORDS));
    const there: Answer = JSON.parse(run(node(), WORDS));
    expect(there.points.map(({ status }) => status)).toEqual(['settled', 'settled']);
    there.points.forEach(({ torqueNm }, i) => {
      expect(Math.abs(torqueNm / here.points[i].torqueNm - 1)).toBeLessThan(1e-9);
    });
  });

  it('runs studies on threads', () => {
    const sweep = [
      'sweep',
      engine,
      '--vary',
      'cam.advance=2:4:2 deg',
      '--rpm',
      '3000',
      '--workers',
      '2',
      '--csv',
    ];
    expect(run(node(), sweep).trim().split('\n').length).toBeGreaterThan(2);
  });
});
