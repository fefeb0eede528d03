/** Firing orders, and the banks and collectors that follow from them. */
import { describe, expect, it } from 'vitest';
import { usualBanks, usualFiringOrder, usualGroups } from '../../src/reading/defaults/firing.ts';

/** Banks of an engine of which only the firing order is known. */
function banksFiring(order: string, layout: 'v' | 'flat'): readonly (readonly number[])[] {
  const numbers = order.split('-').map(Number);
  const angles = numbers.map((_number, i) => (720 * numbers.indexOf(i + 1)) / numbers.length);
  return usualBanks(numbers.length, layout, angles);
}

describe('firing', () => {
  it.each([
    [1, 'inline'],
    [2, 'inline'],
    [3, 'inline'],
    [4, 'inline'],
    [5, 'inline'],
    [6, 'inline'],
    [8, 'inline'],
    [2, 'v'],
    [4, 'v'],
    [6, 'v'],
    [8, 'v'],
    [10, 'v'],
    [12, 'v'],
    [2, 'flat'],
    [4, 'flat'],
    [6, 'flat'],
  ] as const)('order of %d cylinders %s holds each cylinder once', (cylinders, layout) => {
    const order = usualFiringOrder(cylinders, layout) ?? [];
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: cylinders }, (_, i) => i + 1));
  });

  it('alternates banks in a V6 and not in a cross-plane V8, whose banks hold odd and even cylinders', () => {
    const banks = usualBanks(8, 'v');
    expect(banks).toEqual([
      [1, 3, 5, 7],
      [2, 4, 6, 8],
    ]);
    const runs = (usualFiringOrder(8, 'v') ?? []).map((cylinder) => cylinder % 2);
    expect(runs).toEqual([1, 0, 0, 1, 0, 1, 1, 0]);
    expect((usualFiringOrder(6, 'v') ?? []).map((cylinder) => cylinder % 2)).toEqual([1, 0, 1, 0, 1, 0]);
  });

  it.each([
    [
      'a V8 of the other numbering',
      '1-5-4-2-6-3-7-8',
      [
        [1, 2, 3, 4],
        [5, 6, 7, 8],
      ],
    ],
    [
      'the same with another cam',
      '1-3-7-2-6-5-4-8',
      [
        [1, 2, 3, 4],
        [5, 6, 7, 8],
      ],
    ],
    [
      'a V8 whose banks are odd and even, with another cam',
      '1-8-7-2-6-5-4-3',
      [
        [1, 3, 5, 7],
        [2, 4, 6, 8],
      ],
    ],
    [
      'a V8 with a flat crank',
      '1-8-3-6-4-5-2-7',
      [
        [1, 2, 3, 4],
        [5, 6, 7, 8],
      ],
    ],
    [
      'a V6 of the other numbering',
      '1-4-2-5-3-6',
      [
        [1, 2, 3],
        [4, 5, 6],
      ],
    ],
  ] as const)(
    'takes %s, %s, by its firing order: pistons that face each other are as far apart all along',
    (_, order, banks) => {
      expect(banksFiring(order, 'v')).toEqual(banks);
    },
  );

  it('does so too with ten or twelve in a V, which are usually numbered along one bank', () => {
    const along = [
      [1, 2, 3, 4, 5],
      [6, 7, 8, 9, 10],
    ];
    const across = [
      [1, 3, 5, 7, 9],
      [2, 4, 6, 8, 10],
    ];
    expect(banksFiring('1-6-5-10-2-7-3-8-4-9', 'v')).toEqual(along);
    expect(banksFiring('1-10-9-4-3-6-5-8-7-2', 'v')).toEqual(across);
    expect(banksFiring('1-12-5-8-3-10-6-7-2-11-4-9', 'v')[0]).toEqual([1, 2, 3, 4, 5, 6]);
    expect(banksFiring('1-12-9-4-5-8-11-2-3-10-7-6', 'v')[0]).toEqual([1, 3, 5, 7, 9, 11]);
  });

  // Opposed pistons reach top centre together, so that a flat four fires its banks 180 and 540 deg apart; common practice, no source.
  it('takes a flat engine by its firing order: pistons that face each other reach top centre together', () => {
    expect(banksFiring('1-6-2-4-3-5', 'flat')[0]).toEqual([1, 2, 3]);
    expect(banksFiring('1-6-3-2-5-4', 'flat')[0]).toEqual([1, 3, 5]);
    expect(banksFiring('1-3-2-4', 'flat')[0]).toEqual([1, 3]);
    expect(banksFiring('1-4-3-2', 'flat')[0]).toEqual([1, 2]);
  });

  it('keeps the usual banks where a firing order tells of none, as with a V4 that fires evenly', () => {
    expect(banksFiring('1-3-2-4', 'v')[0]).toEqual([1, 3]);
    expect(usualBanks(6, 'v')[0]).toEqual([1, 3, 5]);
  });

  it('splits an inline six with headers in threes', () => {
    expect(usualGroups(usualBanks(6, 'inline'), 'headers')).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
  });
});
