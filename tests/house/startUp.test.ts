import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';

const cli = join(import.meta.dirname, '../../packages/cli/src');

/** What is loaded with `path` at once: imports of values, not of types, and nothing that is imported when needed. */
function loadedWith(path: string, seen: Set<string> = new Set()): Set<string> {
  if (seen.has(path)) return seen;
  seen.add(path);
  if (!path.startsWith(cli)) return seen;
  const { module } = parseSync(path, readFileSync(path, 'utf8'));
  for (const { moduleRequest, entries } of module.staticImports) {
    if (entries.length > 0 && entries.every(({ isType }) => isType)) continue;
    const name = moduleRequest.value;
    loadedWith(name.startsWith('.') ? join(dirname(path), name) : name, seen);
  }
  return seen;
}

describe('what the command loads before it knows what to do', () => {
  it('is neither the library, nor what draws, nor what starts threads', () => {
    const loaded = loadedWith(join(cli, 'main.ts'));
    expect(loaded).toContain(join(cli, 'commands/forecast.ts'));
    expect(loaded).toContain('yargs');
    const heavy = [...loaded].filter((name) => /^(@valvetide\/|vega|tinypool)/.test(name));
    expect(heavy).toEqual([]);
  });

  it('is the library too once its entry is imported, which the walk sees, and still nothing that starts threads', () => {
    const loaded = loadedWith(join(cli, 'core.ts'));
    expect(loaded).toContain('@valvetide/core');
    expect(loaded).toContain(join(cli, 'workers/jobRunner.ts'));
    expect([...loaded].filter((name) => /^(vega|tinypool)/.test(name))).toEqual([]);
  });

  it('is no study: what a forecast alone has no need of stands in a file that is loaded when asked for', () => {
    const entry = join(cli, 'core.ts');
    const studies = join(cli, 'studies.ts');
    expect(loadedWith(entry)).not.toContain(studies);
    const namesOf = (path: string): string[] => {
      const { module } = parseSync(path, readFileSync(path, 'utf8'));
      const imported = module.staticImports.flatMap(({ entries }) => [...entries]);
      return imported.filter(({ isType }) => !isType).flatMap(({ importName }) => importName.name ?? []);
    };
    expect(namesOf(studies)).toContain('rank');
    expect(namesOf(entry)).toContain('readCombination');
    expect(namesOf(entry).filter((name) => namesOf(studies).includes(name))).toEqual([]);
  });
});
