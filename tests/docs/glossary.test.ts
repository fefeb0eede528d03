/** The page of words has every column that a forecast can show, each word once. */
import { describe, expect, it } from 'vitest';
import { pointColumns } from '../../packages/cli/src/render/pointColumns.ts';
import { readGuide } from './guides.ts';

function words(): readonly string[] {
  return [...readGuide('docs/guide/glossary.md').matchAll(/^\| ([^|]+?) +\| [^|]{10,} \|$/gm)]
    .flatMap(([, names]) => names.split(', '))
    .filter((name) => name !== 'word' && !name.startsWith('-'));
}

describe('the page of words', () => {
  it('has the columns of a forecast, by their names and in their order', () => {
    const columns = pointColumns('trade').map(({ name }) => name);
    expect(words().slice(0, columns.length)).toEqual(columns);
  });

  it('has each word once', () => {
    expect(words().length).toBe(new Set(words()).size);
    expect(words().length).toBeGreaterThan(45);
  });
});
