import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { pressureSheets } from '../examples/pressureSheets.ts';
import { pullSheets } from '../examples/pullSheets.ts';

const root = join(import.meta.dirname, '../..');

it('the sheets of dyno and sensors among the examples are those that node tools/exampleSheets.mjs makes', () => {
  const made = { ...pullSheets(), ...pressureSheets() };
  expect(Object.keys(made)).toHaveLength(3);
  for (const [file, text] of Object.entries(made)) {
    expect(readFileSync(join(root, file), 'utf8'), file).toBe(text);
  }
});
