import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exists, guides, readGuide } from './guides.ts';

/** Pages beside the guides that a reader is sent to. */
const BESIDE = [
  'SECURITY.md',
  'examples/README.md',
  'packages/core/README.md',
  'packages/cli/README.md',
  'tests/builders/README.md',
  'tests/data/reference-1d.md',
];

/** Links inside the project: the page, resolved from its root, and the heading on it. */
function links(path: string): { page: string; heading: string | undefined }[] {
  return [...readGuide(path).matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target]) => target)
    .filter((target) => !/^[a-z]+:/.test(target))
    .map((target) => {
      const [page, heading] = target.split('#');
      return { page: page === '' ? path : posix.join(posix.dirname(path), page), heading };
    });
}

const targets = (path: string): string[] => links(path).map(({ page }) => page);

/** Names that a page's headings have in links. */
function headings(page: string): string[] {
  return [...readGuide(page).matchAll(/^#+ (.*)$/gm)].map(([, words]) =>
    words
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N} _-]/gu, '')
      .replaceAll(' ', '-'),
  );
}

describe('the guides', () => {
  it.each([...guides(), ...BESIDE])('%s: links lead somewhere', (path) => {
    expect(targets(path).filter((target) => !exists(target))).toEqual([]);
  });

  it.each([...guides(), ...BESIDE])('%s: links to a heading find it', (path) => {
    const lost = links(path).filter(
      ({ page, heading }) =>
        heading !== undefined && page.endsWith('.md') && !headings(page).includes(heading),
    );
    expect(lost).toEqual([]);
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
