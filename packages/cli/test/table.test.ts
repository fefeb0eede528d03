import { expect, it } from 'vitest';
import { chance } from '../src/render/chance.ts';
import { type Column, table } from '../src/render/table.ts';

const column = (name: string, cell: string): Column<null> => ({ name, unit: '', cell: () => cell });

it('a table that is parted keeps the speed of a figure beside the figure', () => {
  const columns = [column('change', 'Longer trumpets'), column('worst loss', '-4.8'), column('at', '10000')];
  const whole = table(columns, [null], 40);
  expect(whole.split('\n')[0]).toBe('         change  worst loss     at');
  // With one column less of room the speed would stand alone in a second table.
  const wide = column('gain', '+12.5');
  const parted = table([columns[0], wide, columns[1], columns[2]], [null], 36);
  expect(parted.split('\n').filter((line) => line.includes('change'))).toEqual([
    '         change   gain',
    '         change  worst loss     at',
  ]);
});

it('no chance is told as certain', () => {
  expect([0, 0.004, 0.5, 0.994, 1].map((value) => chance(value))).toEqual(['<1', '<1', '50', '>99', '>99']);
});
