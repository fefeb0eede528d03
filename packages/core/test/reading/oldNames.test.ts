import { describe, expect, it } from 'vitest';
import { readChanges } from '../../src/changes/readChanges.ts';
import { newFieldFor, newWordFor, OLD_FIELDS, OLD_WORDS } from '../../src/reading/oldNames.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fieldPaths } from '../../src/reading/schema/fieldPaths.ts';

const file = (more: string): string => `
engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
${more}`;

const linesOf = (text: string): string[] => {
  const read = readCombination(text, { file: 'e.yaml' });
  return read.ok ? [] : read.problems.map((p) => `${p.line}: ${p.path} ${p.message} (${p.hint})`);
};

/** Sections as `chamber: { ... }` of what a problem says to write, beside what a file needs anyway. */
const withNew = (section: string, words: string): string => {
  const base = { chamber: 'compression: 9.5', heads: 'valvesPerCylinder: 2', exhaust: 'style: headers' };
  const sections = Object.entries(base).map(
    ([name, inner]) => `${name}: { ${inner}${name === section ? `, ${words}` : ''} }`,
  );
  return `engine: { bore: 4 in, stroke: 3.5 in, cylinders: 8 }\n${sections.join('\n')}`;
};

describe('names that are no longer read', () => {
  it('say what to write now, at their line', () => {
    expect(
      linesOf(file('').replace('valvesPerCylinder: 2', 'valvesPerCylinder: 2, preparation: ported')),
    ).toEqual(['4: heads.preparation has another name now (write ports: fully-ported)']);
    expect(linesOf(file('').replace('compression: 9.5', 'compression: 9.5, class: open-wedge'))).toEqual([
      '3: chamber.class has another name now (write shape: wedge, plug: side, squishArea: 8 %)',
    ]);
    expect(linesOf(file('exhaust: { muffler: race }'))).toEqual([
      '5: exhaust.muffler has other words now (write muffler: straight-through, or its back-pressure or rated flow)',
    ]);
  });

  it('say so in a file of changes too', () => {
    const read = readChanges('changes: [{ name: worked, set: { heads.preparation: ported } }]');
    expect(read.ok ? [] : read.problems.map(({ message, hint }) => `${message} (${hint})`)).toEqual([
      'has another name now (write ports: fully-ported)',
    ]);
  });

  it('are never fields, and a value nobody knew gets the general line', () => {
    for (const { path } of OLD_FIELDS) expect(fieldPaths()).not.toContain(path);
    expect(newFieldFor('chamber.class', 'constructor')).toBe('shape, plug and squishArea');
    expect(newFieldFor('chamber.volume', '64 cc')).toBeNull();
    expect(newWordFor('exhaust.muffler', 'constructor')).toBeNull();
  });

  it.each(
    [...OLD_FIELDS, ...OLD_WORDS].flatMap(({ path, now }) =>
      Object.entries(now).flatMap(([old, words]) => (old === '*' ? [] : [[path, old, words] as const])),
    ),
  )('name words that can be read: %s %s', (path, _old, words) => {
    expect(linesOf(withNew(path.split('.')[0], words.replace(/, or its.*/u, '')))).toEqual([]);
  });
});
