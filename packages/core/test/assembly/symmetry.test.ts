/** Which cylinders stand for all: those that see what the others see, some degrees later. */
import { describe, expect, it } from 'vitest';
import { groupWeight, marchingOf } from '../../src/assembly/symmetry.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** An engine that fires in this order at even intervals, unless told otherwise. */
function firing(
  order: readonly number[],
  groups: readonly (readonly number[])[],
  angles?: readonly number[],
): Combination {
  const base = bigBlock();
  const { collectors } = base.exhaustSystem;
  if (collectors === null) throw new Error('it has collectors');
  const cylinders = order.length;
  const even = order.map((_, i) => (720 * order.indexOf(i + 1)) / cylinders);
  const [plenum] = base.induction.plenums;
  return bigBlock({
    block: { ...base.block, cylinders, firingOrder: order, firingAngles: angles ?? even },
    induction: { ...base.induction, plenums: [{ ...plenum, cylinders: order }] },
    exhaustSystem: { ...base.exhaustSystem, collectors: { ...collectors, groups } },
  });
}

const BANKS = [
  [1, 3, 5, 7],
  [2, 4, 6, 8],
];
const EIGHT = [1, 8, 4, 3, 6, 5, 7, 2];

describe('the cylinders that march', () => {
  it('of a V8 with a cross-plane crank and a collector a bank are one whole bank, whose pulses meet in one collector', () => {
    const marching = marchingOf(firing(EIGHT, BANKS), 'representative');
    expect([...marching.cylinders].sort()).toEqual([1, 3, 5, 7]);
    expect([marching.weight, marching.shifts]).toEqual([2, [0, 360]]);
    // What cylinder 1 does, 6 does half a cycle later; its collector stands for both.
    expect(marching.imageOf(1, 360)).toBe(6);
    expect(groupWeight(marching, BANKS[0], [BANKS[0]])).toBe(2);
  });

  it('of two planes that are open into each other draw from both: a shift that swaps the planes is none', () => {
    const planes = [
      [1, 4, 6, 7],
      [2, 3, 5, 8],
    ];
    // In the open every cylinder's pipe is alike, and a quarter of a cycle later the other plane does the same.
    const base = firing(EIGHT, []);
    const [plenum] = base.induction.plenums;
    const plenums = planes.map((cylinders) => ({ ...plenum, cylinders }));
    const closed = { ...base, induction: { ...base.induction, plenums } };
    const open = { ...closed, induction: { ...closed.induction, dividerArea: 3e-4 } };
    expect(marchingOf(closed, 'representative').weight).toBe(8);
    const { cylinders, weight, shifts } = marchingOf(open, 'representative');
    expect([weight, shifts]).toEqual([4, [0, 180, 360, 540]]);
    expect(planes.map((plane) => cylinders.filter((c) => plane.includes(c)).length)).toEqual([1, 1]);
  });

  it('of an even six with one collector are one that stands for six', () => {
    const { cylinders, weight, shifts } = marchingOf(
      firing([1, 5, 3, 6, 2, 4], [[1, 2, 3, 4, 5, 6]]),
      'representative',
    );
    expect([cylinders.length, weight, shifts]).toEqual([1, 6, [0, 120, 240, 360, 480, 600]]);
  });

  it('of an even six with a collector for each three are one, whose image lies in the other three too', () => {
    const six = firing(
      [1, 5, 3, 6, 2, 4],
      [
        [1, 2, 3],
        [4, 5, 6],
      ],
    );
    const marching = marchingOf(six, 'representative');
    expect([marching.cylinders.length, marching.weight]).toEqual([1, 6]);
  });

  it('of an even four with one collector are one that stands for four, of a twin both', () => {
    expect(marchingOf(firing([1, 3, 4, 2], [[1, 2, 3, 4]]), 'representative')).toMatchObject({
      weight: 4,
      shifts: [0, 180, 360, 540],
    });
    expect(marchingOf(firing([1, 2], [[1, 2]]), 'representative').cylinders).toHaveLength(2);
  });

  it('of a six that fires in pairs of 90 and 150 degrees are three', () => {
    const pairs = firing([1, 5, 3, 6, 2, 4], [[1, 2, 3, 4, 5, 6]], [0, 450, 240, 600, 90, 360]);
    expect(marchingOf(pairs, 'representative')).toMatchObject({ weight: 2, shifts: [0, 360] });
  });

  it('of an engine that no shift repeats, or that is asked for in full, are all', () => {
    const uneven = firing([1, 5, 3, 6, 2, 4], [[1, 2, 3, 4, 5, 6]], [0, 450, 240, 610, 90, 360]);
    expect(marchingOf(uneven, 'representative').cylinders).toHaveLength(6);
    expect(marchingOf(firing(EIGHT, BANKS), 'all')).toMatchObject({
      cylinders: [1, 2, 3, 4, 5, 6, 7, 8],
      weight: 1,
      shifts: [0],
    });
  });
});
