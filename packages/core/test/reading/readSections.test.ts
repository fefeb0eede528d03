/** Sections are read once as long as they are the same, and anew once somebody has written into them. */
import { describe, expect, it } from 'vitest';
import type { Plain } from '../../src/reading/combinationDocument.ts';
import { editDocument } from '../../src/reading/editDocument.ts';
import { readSections } from '../../src/reading/readSections.ts';

const engine = (bore: string): Record<string, Plain> => ({ bore, stroke: '80 mm', cylinders: 4 });
const documentOf = (data: Record<string, Plain>) => ({ file: 'e.yaml', data, positions: {} });

describe('a section read before', () => {
  it('has the values of one that is read anew', () => {
    const document = documentOf({ engine: engine('90 mm'), chamber: { compression: 10 } });
    const first = readSections(document);
    const edited = readSections(editDocument(document, 'chamber.compression', 11));
    expect(edited.file.engine).toEqual(readSections(documentOf({ engine: engine('90 mm') })).file.engine);
    expect(edited.file.engine).toBe(first.file.engine);
    expect([first.file.chamber?.compression, edited.file.chamber?.compression]).toEqual([10, 11]);
  });

  it('is read anew once somebody has written into it', () => {
    const written = engine('90 mm');
    const document = documentOf({ engine: written });
    expect(readSections(document).file.engine?.bore).toBeCloseTo(0.09, 12);
    written['bore'] = '95 mm';
    expect(readSections(document).file.engine?.bore).toBeCloseTo(0.095, 12);
    written['bore'] = 'wide';
    expect(readSections(document).problems).toHaveLength(1);
  });

  it('is no section of another name', () => {
    const shared = { compression: 10 };
    expect(readSections(documentOf({ engine: engine('90 mm'), chamber: shared })).problems).toEqual([]);
    expect(
      readSections(documentOf({ engine: engine('90 mm'), heads: shared })).problems.length,
    ).toBeGreaterThan(0);
  });
});
