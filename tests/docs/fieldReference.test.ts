/** The page of fields says what the schema says. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { combinationSchema } from '../../packages/core/src/reading/schema/combinationSchema.ts';
import { fieldPaths, fieldReference } from './fieldReference.ts';
import { readGuide, root } from './guides.ts';

const page = 'docs/guide/combination-fields.md';

const introduction = `# Fields of the combination file

Made from the schema of the file by \`npx vitest run --project default tests/docs/fieldReference.test.ts -u\`; the same words
stand in the JSON Schema that [editors](editor.md) read. How a file is laid out as a whole: [the combination file](combination-file.md).

- A field that is not **needed** may be left out: an [estimate](../theory/estimates.md) takes its place and is listed with the result.
- A quantity is a text with its unit, \`4.155 in\`; fractions such as \`1-5/8 in\` are understood. In brackets: the range that is believed.
- \`[]\` stands for each entry of a list.
`;

describe('the page of fields', () => {
  it('is what the schema makes of it', async () => {
    await expect(fieldReference(combinationSchema(), introduction)).toMatchFileSnapshot(join(root, page));
  });

  it('names every field of the schema, and no other', () => {
    const named = [...readGuide(page).matchAll(/^\| `([^`]+)` \|/gm)].map(([, path]) => path);
    const headings = [...readGuide(page).matchAll(/^## (\S+)$/gm)].map(([, name]) => name);
    const known = fieldPaths(combinationSchema());
    expect(known.length).toBeGreaterThan(150);
    expect(headings).toEqual(known.filter((path) => !/[.[]/.test(path)));
    expect(new Set([...named, ...headings])).toEqual(new Set(known));
  });

  it('says something of each', () => {
    const silent = [...readGuide(page).matchAll(/^\| `([^`]+)` \| *(?:\*\*Needed\.\*\* )?\|/gm)].map(
      ([, path]) => path,
    );
    expect(silent).toEqual([]);
  });
});
