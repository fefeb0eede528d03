import { describe, expect, it } from 'vitest';
import { editText } from '../../src/reading/editText.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { EXAMPLES, exampleSheet, exampleText } from './files.ts';

describe('editText(text, edits)', () => {
  it('sets a field that is there and keeps the remark behind it', () => {
    const text = 'friction:\n  multiplier: 1   # from the last build\n  accessories: true\n';
    expect(editText(text, [['friction.multiplier', 0.93]])).toBe(
      'friction:\n  multiplier: 0.93 # from the last build\n  accessories: true\n',
    );
  });

  it('edits a text whose lines end in bare carriage returns, and ends them as others do', () => {
    const text = '# as built\rfriction:\r  multiplier: 1\r';
    expect(editText(text, [['friction.multiplier', 0.93]])).toBe(
      '# as built\nfriction:\n  multiplier: 0.93\n',
    );
  });

  it('makes sections that are not there', () => {
    expect(editText('name: x\n', [['induction.runner.lengthMultiplier', 1.02]])).toBe(
      'name: x\ninduction:\n  runner:\n    lengthMultiplier: 1.02\n',
    );
  });

  it('leaves brackets as they are written, with blanks or without', () => {
    const text =
      'engine: { cylinders: 4, banks: [[1, 2], [3, 4]] }\nexhaust: {groups: [ [1, 4], [ 2, 3 ] ], style: header}\nnone: []\nmultiplier: 1\n';
    expect(editText(text, [['multiplier', 0.93]])).toBe(text.replace('multiplier: 1', 'multiplier: 0.93'));
  });

  it('takes a field out', () => {
    expect(
      editText('a: 1\nb: 2\n', [
        ['a', null],
        ['c.d', null],
      ]),
    ).toBe('b: 2\n');
  });

  it('lays a calibration out as a person would', () => {
    const knobs = [{ field: 'friction.multiplier', value: 0.93, spread: 0.05 }];
    expect(
      editText('name: x\n', [['calibration', { sheets: ['pulls.csv'], knobs, correlation: [[1]] }]]),
    ).toBe(
      'name: x\ncalibration:\n  sheets: [pulls.csv]\n  knobs:\n    - { field: friction.multiplier, value: 0.93, spread: 0.05 }\n  correlation:\n    - [1]\n',
    );
  });

  it.each(EXAMPLES)('%s: keeps every remark, and what it says, but for the field that is set', (name) => {
    const text = exampleText(name);
    const edited = editText(text, [['friction.multiplier', 0.9]]);
    const remarks = (of: string) => of.match(/#.*$/gm) ?? [];
    expect(remarks(edited)).toEqual(remarks(text));
    const read = (of: string) => {
      const result = readCombination(of, { sheet: exampleSheet(name) });
      if (!result.ok) throw new Error(result.problems[0].message);
      const { assumed: _, ...rest } = result.value;
      return rest;
    };
    const before = read(text);
    expect(read(edited)).toEqual({ ...before, friction: { ...before.friction, multiplier: 0.9 } });
  });

  it('refuses text that is no YAML', () => {
    expect(() => editText('a: [1', [['a', 2]])).toThrow('readable combination file');
  });
});
