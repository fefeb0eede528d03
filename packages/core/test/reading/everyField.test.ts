/** Every field that the published schema knows, written wrongly in each of the ways a hand slips: refused where it stands, with what was meant. */
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { branches, fieldsBySection, isQuantity } from './schemaFields.ts';

const sections = fieldsBySection();

/** As many unknown names at once as are told one by one. */
const AT_ONCE = 20;

/** What is told of each of these lines of one section, in a file that says nothing else. */
function told(section: string, lines: readonly string[]): readonly string[] {
  if (lines.length > AT_ONCE)
    return [...told(section, lines.slice(0, AT_ONCE)), ...told(section, lines.slice(AT_ONCE))];
  const names = section === '' ? [] : section.split('.');
  const head = names.map((name, depth) => `${'  '.repeat(depth)}${name.replace('[]', '')}:`);
  const inner = '  '.repeat(names.length);
  const list = section.endsWith('[]');
  const body = lines.map((line, i) => `${inner}${list ? (i === 0 ? '- ' : '  ') : ''}${line}`);
  const read = readCombination([...head, ...body].join('\n'), { file: 'e.yaml' });
  const all = read.ok ? [] : read.problems.map(problemLine);
  return lines.map((_, i) =>
    all.filter((line) => line.startsWith(`e.yaml:${head.length + i + 1}:`)).join(' | '),
  );
}

const SLIPS: readonly (readonly [what: string, slip: (name: string) => string])[] = [
  ['two letters swapped', (name) => name.replace(/^(.)(.)(.)/u, '$1$3$2')],
  ['a letter left out', (name) => name.slice(0, 2) + name.slice(3)],
  ['a letter doubled', (name) => name.slice(0, 2) + name.slice(1)],
  ['a capital', (name) => name.toUpperCase()],
];

describe.each(SLIPS)('a field with %s', (_what, slip) => {
  it.each([...sections.keys()])('in %s is refused with the right name', (section) => {
    const fields = sections.get(section) ?? [];
    const names = fields.map(({ name }) => name);
    const slips = names
      .map((name) => [name, slip(name)] as const)
      .filter(([, wrong]) => !names.includes(wrong));
    const lines = told(
      section,
      slips.map(([, wrong]) => `${wrong}: 3`),
    );
    slips.forEach(([name, wrong], i) => {
      expect(lines[i], wrong).toContain('is not a field');
      // Without one of its digits a name of digits is as near to another.
      if (!/\d/u.test(name)) expect(lines[i], wrong).toContain(`did you mean ${name}?`);
    });
  });
});

describe.each([...sections.keys()])('in %s', (section) => {
  const fields = sections.get(section) ?? [];
  const path = section === '' ? '' : `${section.replace('[]', '.0')}.`;

  it('a quantity without unit, with one that is none or with one of something else is refused by its path', () => {
    const quantities = fields.filter(isQuantity);
    for (const wrong of ['3', '3 zorks', '3 A', 'wide']) {
      const lines = told(
        section,
        quantities.map(({ name }) => `${name}: ${wrong}`),
      );
      for (const [i, { name }] of quantities.entries())
        expect(lines[i], `${name}: ${wrong}`).toContain(`${path}${name} `);
    }
  });

  it('a word that is none of those asked for is refused, and they are named', () => {
    const worded = fields.flatMap(({ name, schema }) => {
      const words = branches(schema).flatMap(
        (one) => one.enum ?? (one.const === undefined ? [] : [one.const]),
      );
      return words.length === 0 ? [] : [{ name, words }];
    });
    const lines = told(
      section,
      worded.map(({ name, words }) => `${name}: ${words[0]}x`),
    );
    worded.forEach(({ name, words }, i) => {
      expect(lines[i], name).toContain(`${path}${name}`);
      expect(
        words.some((word) => lines[i].includes(word)),
        lines[i],
      ).toBe(true);
      // A letter more is near to one of two names that differ in a digit.
      if (!/\d/u.test(words[0])) expect(lines[i], name).toContain(`did you mean ${words[0]}?`);
    });
  });

  it('a size beyond what the field takes is refused with its ends', () => {
    const ranged = fields.filter(isQuantity).flatMap(({ name, schema }) => {
      const [, most, unit] = /\(\S+ \S+ to (\S+) ([^)]+)\)/u.exec(schema.description ?? '') ?? [];
      return most === undefined ? [] : [{ name, most, unit }];
    });
    const lines = told(
      section,
      ranged.map(({ name, most, unit }) => `${name}: ${1.01 * Number(most)} ${unit}`),
    );
    for (const [i, { name, most, unit }] of ranged.entries())
      expect(lines[i], name).toContain(`${most} ${unit}`);
  });
});
