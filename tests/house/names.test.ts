/** One name for one thing: no two files of a package export the same name. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
/** The forms of one thing, of which the manifest takes one. */
const FORMS = new Set(['unitSize']);
const EXPORTED = /^export (?:async )?(?:interface|type|class|const|function)\*? (\w+)/gmu;

/** Exported names that stand in several files, with the files. */
function sharedNames(sources: ReadonlyMap<string, string>): readonly string[] {
  const places = new Map<string, Set<string>>();
  for (const [path, text] of sources)
    for (const [, name] of text.matchAll(EXPORTED))
      places.set(name, (places.get(name) ?? new Set()).add(path));
  return [...places]
    .filter(([name, paths]) => paths.size > 1 && !FORMS.has(name))
    .map(([name, paths]) => `${name}: ${[...paths].sort().join(', ')}`);
}

function sourcesOf(folder: string): Map<string, string> {
  const names = readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' });
  return new Map(
    names
      .filter((name) => name.endsWith('.ts'))
      .map((name) => [name.replaceAll('\\', '/'), readFileSync(join(ROOT, folder, name), 'utf8')]),
  );
}

describe('exported names', () => {
  it.each(['packages/core/src', 'packages/cli/src'])('stand in one file each of %s', (folder) => {
    const sources = sourcesOf(folder);
    expect(sources.size).toBeGreaterThan(50);
    expect(sharedNames(sources)).toEqual([]);
  });

  it('are named with their files where two share one', () => {
    const sources = new Map([
      ['a.ts', 'export interface Share {\n}\nexport function f(): void;\nexport function f(): void {}'],
      ['b.ts', 'export type Share = 1;'],
    ]);
    expect(sharedNames(sources)).toEqual(['Share: a.ts, b.ts']);
  });
});
