/** Edits of a document by path, and the order its problems are told in. */
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/combination/problem.ts';
import type { CombinationDocument } from '../../src/reading/combinationDocument.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import { inFileOrder } from '../../src/reading/inFileOrder.ts';

const document: CombinationDocument = {
  file: 'e.yaml',
  data: {
    chamber: { compression: 9.5 },
    exhaust: {
      collector: 'none',
      groups: [
        [1, 2],
        [3, 4],
      ],
    },
  },
  positions: {},
};
const edited = (path: string, value: Parameters<typeof editDocument>[2]) =>
  editDocument(document, path, value).data;

describe('editDocument(document, path, value)', () => {
  it('sets a field, makes the sections on the way, and leaves the document as it was', () => {
    expect(edited('chamber.compression', 10)).toMatchObject({ chamber: { compression: 10 } });
    expect(edited('heads.bench.depression', '10 inH2O')).toMatchObject({
      heads: { bench: { depression: '10 inH2O' } },
    });
    expect(document.data).toMatchObject({ chamber: { compression: 9.5 } });
  });

  it('has fields in the place of a word', () => {
    expect(edited('exhaust.collector.length', '12 in')).toMatchObject({
      exhaust: { collector: { length: '12 in' } },
    });
  });

  it('takes out the parts that are empty without the field, never a section, and makes none for a field that was not there', () => {
    expect(edited('chamber.compression', null)['chamber']).toEqual({});
    expect(edited('exhaust.box.pipe.inside', '50 mm')).toHaveProperty('exhaust.box.pipe');
    expect(edited('exhaust.box.pipe.inside', null)).toEqual(document.data);
  });

  it('reaches into lists, adds at their end, and nowhere else', () => {
    expect(edited('exhaust.groups.1.0', 5)).toMatchObject({
      exhaust: {
        groups: [
          [1, 2],
          [5, 4],
        ],
      },
    });
    expect(edited('exhaust.groups.2', [5])).toMatchObject({ exhaust: { groups: [[1, 2], [3, 4], [5]] } });
    for (const beyond of ['3', '-1', 'first', '1.5', '1e9'])
      expect(edited(`exhaust.groups.${beyond}`, [5])).toEqual(document.data);
  });

  it.each(['__proto__.compression', 'chamber.constructor', '', 'chamber..compression'])(
    'leaves a path that is none alone: %j',
    (path) => expect(editDocument(document, path, 1)).toBe(document),
  );
});

describe('inFileOrder(problems)', () => {
  it('tells the file that was read first before its sheets, these by name, each by line and column', () => {
    const at = (file: string, line: number | null, column: number | null = 1): Problem => ({
      file,
      line,
      column,
      path: '',
      code: 'syntax',
      message: '',
      hint: null,
    });
    const mixed = [
      at('e.yaml', 9),
      at('flow.csv', 2),
      at('cam.csv', 4),
      at('e.yaml', 2, 7),
      at('e.yaml', 2, 3),
      at('cam.csv', 1),
      at('e.yaml', null),
    ];
    expect(inFileOrder(mixed).map(({ file, line, column }) => `${file}:${line}:${column}`)).toEqual([
      'e.yaml:null:1',
      'e.yaml:2:3',
      'e.yaml:2:7',
      'e.yaml:9:1',
      'cam.csv:1:1',
      'cam.csv:4:1',
      'flow.csv:2:1',
    ]);
    expect(inFileOrder([])).toEqual([]);
  });
});
