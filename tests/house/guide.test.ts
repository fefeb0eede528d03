/** What the contributors' guide says of folders, doors and tests is so. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
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
/** What a command makes, and a part of a package. */
const MADE_OR_ELSEWHERE = new Set(['packages/cli/bundle', 'tools/docs/dist', 'zod/mini']);
/** Data, and what its one caller is tested with. */
const TESTED_WITH_ITS_CALLER = new Set(['speciesData.ts', 'cardFault.ts', 'lobeFlank.ts']);

describe("the contributors' guide", () => {
  it.each(foldersOf('tests'))('says what tests/%s is for', (folder) =>
    expect(guide()).toContain(`\`tests/${folder}/\``),
  );

  it('names every command of the repository, and none that is not there', () => {
    const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
      scripts: Readonly<Record<string, string>>;
    };
    const named = [...guide().matchAll(/`(?:[A-Z]+=\S+ )?npm (?:run )?([\w:]+)/gu)].map(([, name]) => name);
    expect(named.length).toBeGreaterThan(20);
    expect(named.filter((name) => name !== 'ci' && scripts[name] === undefined)).toEqual([]);
    expect(Object.keys(scripts).filter((name) => name !== 'start' && !named.includes(name))).toEqual([]);
  });

  it('names no file or folder of sources, tools or documents that is not there', () => {
    const places = [...guide().matchAll(/`([\w.-]+(?:\/[\w.-]+)+\/?)`/gu)]
      .map(([, place]) => place)
      .filter((place) => !MADE_OR_ELSEWHERE.has(place));
    expect(places.length).toBeGreaterThan(40);
    const stands = (place: string): boolean =>
      [
        '',
        'packages/',
        'packages/core/src/',
        'packages/cli/src/',
        'packages/cli/src/report/',
        'packages/core/src/reading/',
      ].some((below) => existsSync(join(ROOT, below, place)));
    expect(places.filter((place) => !stands(place))).toEqual([]);
  });

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
