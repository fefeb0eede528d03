/** One term for one thing: what the page of words gives up stands in no message, guide or example. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync, Visitor } from 'vite';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const PAGE = 'docs/guide/glossary.md';
/** These read what builders write, whatever they call it. */
const READERS = new Set([
  'packages/core/src/reading/tradeWords.ts',
  'packages/core/src/reading/sheet/liftTable.ts',
]);

/** The first column of the last table of the page, one word or phrase an entry. */
function givenUp(page: string): readonly string[] {
  const section = page.slice(page.indexOf('## Words given up'));
  return [...section.matchAll(/^\| ([^|]+?) +\| [^|]+ \|$/gmu)]
    .flatMap(([, words]) => words.split(', '))
    .filter((word) => word !== 'given up' && !word.startsWith('-'));
}

function filesBelow(folder: string, end: string): readonly string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(end))
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`);
}

/** Texts of a source of two words or more: names, codes and keys stay out. */
function messagesOf(path: string, source: string): readonly string[] {
  const texts: string[] = [];
  const take = (text: string): void => {
    if (/[a-z,] \S|\S [a-z]/iu.test(text)) texts.push(text);
  };
  new Visitor({
    Literal: ({ value }) => (typeof value === 'string' ? take(value) : undefined),
    TemplateElement: ({ value }) => take(value.cooked ?? value.raw),
  }).visit(parseSync(path, source).program);
  return texts;
}

/** What a reader takes for prose: quoted code is somebody else's words. */
const proseOf = (page: string): string =>
  page.replaceAll(/```sh[\s\S]*?```|```ts[\s\S]*?```|`[^`\n]*`/gu, ' ');

function found(words: readonly string[], texts: readonly string[]): readonly string[] {
  // Fields have names of their own: `backPressure`, `.carburettor`.
  const patterns = words.map((word) => {
    const either = `[${word[0].toLowerCase()}${word[0].toUpperCase()}]${word.slice(1)}`;
    return [word, new RegExp(`(?<![\\w.-])${either}(?![\\w-])`, 'u')] as const;
  });
  return texts.flatMap((text) =>
    patterns.flatMap(([word, pattern]) =>
      pattern.test(text) ? [`${word}: ${text.trim().slice(0, 80)}`] : [],
    ),
  );
}

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

describe('words given up', () => {
  it('are there to be looked for, and are seen where they stand', () => {
    const words = givenUp(read(PAGE));
    expect(words.length).toBeGreaterThan(20);
    expect(words).toContain('valve gear');
    const source = 'const x = "the inlet valve lifts"; const y = "silencer";';
    expect(found(words, messagesOf('x.ts', source))).toEqual(['inlet valve: the inlet valve lifts']);
    expect(found(words, [proseOf('a `silencer` is a muffler')])).toEqual([]);
  });

  it.each(['packages/core/src', 'packages/cli/src'])('stand in no message of %s', (folder) => {
    const words = givenUp(read(PAGE));
    const sources = filesBelow(folder, '.ts').filter((path) => !READERS.has(path));
    expect(sources.length).toBeGreaterThan(50);
    expect(
      sources.flatMap((path) =>
        found(words, messagesOf(path, read(path))).map((fault) => `${path}: ${fault}`),
      ),
    ).toEqual([]);
  });

  it('stand in no guide, nor in the README or an example', () => {
    const words = givenUp(read(PAGE));
    const pages = [
      ...filesBelow('docs/guide', '.md').filter((path) => path !== PAGE),
      'README.md',
      ...filesBelow('examples', '.md'),
      ...filesBelow('examples', '.yaml'),
    ];
    expect(
      pages.flatMap((path) =>
        found(words, proseOf(read(path)).split('\n')).map((fault) => `${path}: ${fault}`),
      ),
    ).toEqual([]);
  });
});
