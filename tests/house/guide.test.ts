/** What the contributors' guide says of folders, doors and tests is so. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const guide = (): string => readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
const foldersOf = (path: string): readonly string[] =>
  readdirSync(join(ROOT, path), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name);
const filesOf = (path: string): readonly string[] =>
  readdirSync(join(ROOT, path)).filter((name) => name.endsWith('.ts'));

/** Folders of tests that are no folder of the sources. */
const BESIDE = { core: ['support'], cli: ['cases', 'hostile'] } as const;
/** Data, and what its one caller is tested with. */
const TESTED_WITH_ITS_CALLER = new Set(['speciesData.ts', 'cardFault.ts', 'lobeFlank.ts']);

describe("the contributors' guide", () => {
  it.each(foldersOf('tests'))('says what tests/%s is for', (folder) =>
    expect(guide()).toContain(`\`tests/${folder}/\``),
  );

  it('names every door of the library', () => {
    const { exports } = JSON.parse(readFileSync(join(ROOT, 'packages/core/package.json'), 'utf8')) as {
      exports: Readonly<Record<string, unknown>>;
    };
    const doors = Object.keys(exports).filter((door) => door !== '.' && door !== './package.json');
    for (const door of doors)
      expect(guide()).toContain(`\`@valvetide/core${door.slice(1).replace('*.json', '')}`);
  });

  it.each(['core', 'cli'] as const)('is right that tests of %s have the folders of its sources', (name) => {
    const sources = [...foldersOf(`packages/${name}/src`), ...BESIDE[name]];
    expect(foldersOf(`packages/${name}/test`).filter((folder) => !sources.includes(folder))).toEqual([]);
  });

  it.each(['numerics', 'processes'])('is right that every file of %s has a test of its own', (room) => {
    const tests = filesOf(`packages/core/test/${room}`);
    const without = filesOf(`packages/core/src/${room}`).filter(
      (name) => !tests.includes(name.replace('.ts', '.test.ts')),
    );
    expect(without).toEqual([]);
  });

  it.each(['gas', 'geometry'])(
    'is right that tests of %s call, or are named after, each of its files',
    (room) => {
      const folder = `packages/core/test/${room}`;
      const tests = filesOf(folder);
      const texts = tests.map((name) => readFileSync(join(ROOT, folder, name), 'utf8'));
      const without = filesOf(`packages/core/src/${room}`).filter(
        (name) =>
          !TESTED_WITH_ITS_CALLER.has(name) &&
          !tests.includes(name.replace('.ts', '.test.ts')) &&
          !texts.some((text) => text.includes(`/${room}/${name}'`)),
      );
      expect(without).toEqual([]);
    },
  );
});
