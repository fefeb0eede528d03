import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvCells } from '../../src/reading/sheet/csvCells.ts';

describe('csvCells(line, delimiter)', () => {
  it.each([
    ['1,2,3', ',', ['1', '2', '3']],
    ['1;;3;', ';', ['1', '', '3', '']],
    ['', ',', ['']],
    ['"lift, in",flow', ',', ['lift, in', 'flow']],
    ['\t"a"\t', '\t', ['', 'a', '']],
    // An inch mark stands within a cell.
    ['29.4 "Hg,84 F', ',', ['29.4 "Hg', '84 F']],
    ['"29.4 ""Hg" ,84', ',', ['29.4 "Hg', '84']],
  ])('parts %j at %j', (line, delimiter, cells) => expect(csvCells(line, delimiter)).toEqual(cells));

  it.each(['"open,2', '1,"open', '"closed" more,2'])('finds that a quote of %j does not close', (line) =>
    expect(csvCells(line, ',')).toBeNull(),
  );

  it('reads back whatever is written with every cell in quotes', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string(), { minLength: 1 }),
        fc.constantFrom(',', ';', '\t'),
        (cells, delimiter) => {
          const line = cells.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(delimiter);
          expect(csvCells(line, delimiter)).toEqual(cells);
        },
      ),
    );
  });
});
