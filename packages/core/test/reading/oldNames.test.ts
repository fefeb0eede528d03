import { describe, expect, it } from 'vitest';
import { readChanges } from '../../src/changes/readChanges.ts';
import { newFieldFor, newWordFor, OLD_FIELDS, OLD_WORDS } from '../../src/reading/oldNames.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fieldPaths } from '../../src/reading/schema/fieldPaths.ts';

const BASE = { chamber: 'compression: 9.5', heads: 'valvesPerCylinder: 2', exhaust: 'style: headers' };

/** A file whose section has some fields more. */
const fileWith = (section: string, more: string): string => {
  const sections = Object.entries(BASE).map(
    ([name, inner]) => `${name}: { ${inner}${name === section ? `, ${more}` : ''} }`,
  );
  return `engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }\n${sections.join('\n')}\n`;
};

const linesOf = (text: string): string[] => {
  const read = readCombination(text, { file: 'e.yaml' });
  return read.ok ? [] : read.problems.map((p) => `${p.line}: ${p.path} ${p.message} (${p.hint})`);
};

const entries = (list: typeof OLD_FIELDS) =>
  list.flatMap(({ path, now }) =>
    Object.entries(now).flatMap(([old, words]) => (old === '*' ? [] : [[path, old, words] as const])),
  );
const split = (path: string): readonly [section: string, field: string] => {
  const [section, field] = path.split('.');
  return [section, field];
};
const lineOf = (section: string): number => 2 + Object.keys(BASE).indexOf(section);

describe('names that are no longer read', () => {
  it.each(entries(OLD_FIELDS))('%s: %s gets one line that says what to write', (path, old, words) => {
    const [section, field] = split(path);
    expect(linesOf(fileWith(section, `${field}: ${old}`))).toEqual([
      `${lineOf(section)}: ${path} has another name now (write ${words})`,
    ]);
  });

  it.each(entries(OLD_WORDS))('%s: %s gets one line that says what to write', (path, old, words) => {
    const [section, field] = split(path);
    expect(linesOf(fileWith(section, `${field}: ${old}`))).toEqual([
      `${lineOf(section)}: ${path} has other words now (write ${words})`,
    ]);
  });

  it.each(entries(OLD_FIELDS))('%s: %s gets it in a file of changes too', (path, old, words) => {
    const read = readChanges(`changes: [{ name: worked, set: { ${path}: ${old} } }]`);
    expect(read.ok ? [] : read.problems.map(({ message, hint }) => `${message} (${hint})`)).toEqual([
      `has another name now (write ${words})`,
    ]);
  });

  it.each([...entries(OLD_FIELDS), ...entries(OLD_WORDS)])(
    '%s: %s is answered with words that can be read',
    (path, _old, words) => {
      expect(linesOf(fileWith(split(path)[0], words.replace(/, or its.*/u, '')))).toEqual([]);
    },
  );

  it('are never fields, and a value nobody knew gets the general line', () => {
    for (const { path, now } of OLD_FIELDS) {
      expect(fieldPaths()).not.toContain(path);
      expect(newFieldFor(path, 'constructor')).toBe(now['*']);
      expect(newFieldFor(path, undefined)).toBe(now['*']);
    }
    expect(newFieldFor('chamber.volume', '64 cc')).toBeNull();
    expect(newWordFor('exhaust.muffler', 'constructor')).toBeNull();
    expect(newWordFor('exhaust.muffler', 'chambered')).toBeNull();
  });
});
