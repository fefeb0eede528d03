import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exists, guides, readGuide } from './guides.ts';

/** Targets of links inside the project, resolved from its root, without anchors. */
function targets(path: string): string[] {
  return [...readGuide(path).matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target]) => target)
    .filter((target) => !/^[a-z]+:|^#/.test(target))
    .map((target) => posix.join(posix.dirname(path), target.split('#')[0]));
}

describe('the guides', () => {
  it.each(guides())('%s: links lead somewhere', (path) => {
    expect(targets(path).filter((target) => !exists(target))).toEqual([]);
  });

  it('are all listed in an index', () => {
    const listed = new Set(['docs/README.md', 'docs/theory/README.md'].flatMap(targets));
    expect(guides().filter((path) => path.startsWith('docs/') && !listed.has(path))).toEqual([
      'docs/README.md',
    ]);
  });

  it.each(guides())('%s: names only npm scripts that exist', (path) => {
    const { scripts } = JSON.parse(readGuide('package.json'));
    const named = [...readGuide(path).matchAll(/npm run ([a-z][a-z:]*)/g)].map(([, name]) => name);
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });
});
