import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { houseFaults, ROOMS } from './houseFaults.ts';

const root = join(import.meta.dirname, '../..');

function readSources(): Map<string, string> {
  const sources = new Map<string, string>();
  for (const folder of ['packages/core/src', 'packages/cli/src'])
    for (const name of readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }))
      if (name.endsWith('.ts')) {
        const path = `${folder}/${name.replaceAll('\\', '/')}`;
        sources.set(path, readFileSync(join(root, path), 'utf8'));
      }
  return sources;
}

/** A house of two files, the second of them `text` at `path` of the library's sources. */
function planted(path: string, text: string): string[] {
  return houseFaults(
    new Map([
      ['packages/core/src/index.ts', ''],
      ['packages/core/src/gas/air.ts', 'export const air = 1;'],
      ['packages/core/src/ranking/rank.ts', 'export const rank = 1;'],
      [path, text],
    ]),
  );
}

describe('the house', () => {
  it('has no upward import, cycle, default export, barrel or impure line', () => {
    const sources = readSources();
    expect(sources.size).toBeGreaterThan(5);
    expect(houseFaults(sources)).toEqual([]);
  });

  it('has no file of more than 400 lines', () => {
    const long = [...readSources()].filter(([, text]) => text.split('\n').length > 401);
    expect(long.map(([path]) => path)).toEqual([]);
  });

  it.each(ROOMS)('says in two lines what stands in %s', (room) => {
    const words = readFileSync(join(root, 'packages/core/src', room, 'README.md'), 'utf8');
    expect(words.trimEnd().split('\n')).toHaveLength(2);
  });

  it("has its rooms in the contributors' guide, in their order", () => {
    const guide = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    const listed = [...guide.matchAll(/^\| `(\w+)`\s+\| (.*?)\s+\|$/gm)].map(([, room, what]) => ({
      room,
      what,
    }));
    expect(listed.slice(0, ROOMS.length).map(({ room }) => room)).toEqual(ROOMS);
    for (const { room, what } of listed.slice(0, ROOMS.length))
      expect(readFileSync(join(root, 'packages/core/src', room, 'README.md'), 'utf8')).toContain(what);
  });
});

describe('houseFaults(sources)', () => {
  const fluid = 'packages/core/src/gas/fluid.ts';
  const wall = 'packages/core/src/processes/wall.ts';
  const command = 'packages/cli/src/command.ts';

  it.each([
    ['an import downward', wall, "import { air } from '../gas/air.ts'; export const wall = air;"],
    ['an import within the room', fluid, "import { air } from './air.ts'; export const f = air;"],
    ['a package of its own', fluid, "import { z } from 'zod'; export const f = z;"],
    ['the entry in the cli', command, "import { air } from '@valvetide/core'; export const c = air;"],
    ['node in the cli', command, "import fs from 'node:fs'; export const c = fs;"],
    ['a field with an impure name', fluid, 'export const f = (o: { Date: 1 }) => ({ process: o.Date });'],
    ['a name that is declared here', fluid, 'export const f = (performance: number) => performance;'],
    ['impure words in a comment', fluid, '/** Not Date, not Math.random(). */ export const f = "console";'],
  ])('allows %s', (_what, path, text) => expect(planted(path, text)).toEqual([]));

  it.each([
    ['an import upward', wall, "import { rank } from '../ranking/rank.ts'; export const w = rank;", 'upward'],
    ['a type from upward', wall, "import type { R } from '../ranking/rank.ts'; export type W = R;", 'upward'],
    ['a type query upward', wall, "export type W = typeof import('../ranking/rank.ts').rank;", 'upward'],
    ['a late import upward', wall, "export const w = () => import('../ranking/rank.ts');", 'upward'],
    [
      'a re-export from upward',
      wall,
      "export { rank } from '../ranking/rank.ts'; export const w = 1;",
      'upward',
    ],
    ['the contents page', wall, "import '../index.ts'; export const w = 1;", 'contents page'],
    ['a room not in the plan', 'packages/core/src/attic/x.ts', "import '../gas/air.ts';", 'no room'],
    ['a file that is missing', fluid, "import { x } from './lost.ts'; export const f = x;", 'no source file'],
    ['a default export', fluid, 'export default 1;', 'default export'],
    ['a default export by name', fluid, 'const f = 1; export { f as default };', 'default export'],
    ['a barrel', fluid, "export * from './air.ts';", 'barrel'],
    ['node in the library', fluid, "import fs from 'node:fs'; export const f = fs;", 'imports node:fs'],
    ['node by its old name', fluid, "import fs from 'fs'; export const f = fs;", 'imports fs'],
    ['the clock', fluid, 'export const f = () => new Date();', 'uses Date'],
    ['the clock by a static call', fluid, 'export const f = () => Date.now();', 'uses Date'],
    [
      'a timer that is declared',
      fluid,
      'declare function setTimeout(f: () => void, ms: number): unknown; export const f = () => setTimeout(f, 0);',
      'uses setTimeout',
    ],
    ['unseeded randomness', fluid, 'export const f = () => Math.random();', 'uses Math.random'],
    ['the console', fluid, 'export const f = () => console.log(1);', 'uses console'],
    ['the process', fluid, 'export const f = process.env;', 'uses process'],
    ['the process in shorthand', fluid, 'export const f = { process };', 'uses process'],
    ['a way past the entry', command, "import { a } from '@valvetide/core/dist/a.js';", 'public entry'],
    ['a path past the entry', command, "import '../../core/src/gas/air.ts';", 'public entry'],
  ])('refuses %s', (_what, path, text, message) => {
    const faults = planted(path, text);
    expect(faults[0]).toContain(path);
    expect(faults.join('\n')).toContain(message);
  });

  it('names the files of a cycle', () => {
    const a = 'packages/core/src/gas/a.ts';
    const b = 'packages/core/src/gas/b.ts';
    const faults = houseFaults(
      new Map([
        [a, "import type { B } from './b.ts'; export type A = B;"],
        [b, "import type { A } from './a.ts'; export type B = A;"],
      ]),
    );
    expect(faults).toEqual([`cycle: ${a} -> ${b} -> ${a}`]);
  });
});
