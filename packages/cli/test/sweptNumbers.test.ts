import { describe, expect, it } from 'vitest';
import { sweptNumbers } from '../src/render/sweptNumbers.ts';

describe('sweptNumbers(values)', () => {
  it.each([
    [['28 in', '30 in'], { numbers: [28, 30], unit: 'in' }],
    [['30 in', '28 in'], { numbers: [30, 28], unit: 'in' }],
    [['-2deg', '+2 deg', '.5 deg'], { numbers: [-2, 2, 0.5], unit: 'deg' }],
    [['18 %'], { numbers: [18], unit: '%' }],
    [[9.5, 1e-7], { numbers: [9.5, 1e-7], unit: '' }],
  ])('reads %j', (values, read) => expect(sweptNumbers(values)).toEqual(read));

  it.each([
    ['words', ['wedge', 'hemi']],
    ['a word among numbers', [9, 'wedge']],
    ['two units', ['28 in', '700 mm']],
    ['a unit that some leave out', ['28 in', 30]],
    ['fractions', ['2-1/8 in', '2-1/4 in']],
    ['a firing order', ['1-8-4-3-6-5-7-2', '1-3-7-2-6-5-4-8']],
    ['nothing', []],
  ])('finds no numbers of one unit in %s', (_what, values) => expect(sweptNumbers(values)).toBeNull());
});
