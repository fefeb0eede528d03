/** A name that was given up is known to one table, and to nothing else. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { OLD_FIELDS } from '../../packages/core/src/reading/oldNames.ts';

const ROOT = join(import.meta.dirname, '../..');
const LOOKED_AT = ['packages', 'docs', 'examples', 'tests', 'README.md', 'DEVELOPERS.md'];
/** The table, and the report that is written anew from the published cases. */
const LEFT_OUT = new Set(['packages/core/src/reading/oldNames.ts', 'docs/validation.md']);
const TEXT = /\.(?:ts|mjs|md|ya?ml|csv|json)$/u;
const MADE = new Set(['node_modules', 'dist', 'bundle', 'screens']);
/** Copied by the build. */
const COPIED = join(ROOT, 'packages/cli/schema');

function filesBelow(path: string): string[] {
  if (TEXT.test(path)) return [path];
  return readdirSync(path, { withFileTypes: true }).flatMap((entry) => {
    const inner = join(path, entry.name);
    if (entry.isDirectory()) return MADE.has(entry.name) || inner === COPIED ? [] : filesBelow(inner);
    return TEXT.test(entry.name) ? [inner] : [];
  });
}

/** Paths, and words of two parts that are written nowhere now: single words may mean something else. */
const given = OLD_FIELDS.flatMap(({ path, now }) => {
  const words = Object.values(now).join(' ');
  return [path, ...Object.keys(now).filter((old) => old.includes('-') && !words.includes(`: ${old}`))];
});

describe('names that were given up', () => {
  it('are there to be looked for', () => expect(given.length).toBeGreaterThan(4));

  it('stand in no source, guide, example or test', () => {
    const found = LOOKED_AT.flatMap((start) => filesBelow(join(ROOT, start))).flatMap((file) => {
      const path = relative(ROOT, file);
      if (LEFT_OUT.has(path)) return [];
      const text = readFileSync(file, 'utf8');
      return given.filter((name) => text.includes(name)).map((name) => `${path}: ${name}`);
    });
    expect(found).toEqual([]);
  });
});
