import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LEAST_GAIN_PCT } from '../../src/changes/notModelled.ts';
import { type Budget, bestSubset, type Choice } from '../../src/ranking/bestSubset.ts';

const choice = (
  name: string,
  gainPct: number,
  cost: number | null = 100,
  hours: number | null = 1,
): Choice => ({
  name,
  gainPct,
  cost,
  hours,
});
const FREE: Budget = { cost: null, hours: null };
const none = (): number => 0;

describe('bestSubset(choices, interaction, budget)', () => {
  it('takes what gains and leaves what loses', () => {
    const best = bestSubset([choice('a', 2), choice('b', -1), choice('c', 1)], none, FREE);
    expect(best).toMatchObject({ members: [0, 2], gainPct: 3, cost: 200, hours: 2 });
  });

  it('prefers two that help each other to the best one alone', () => {
    const choices = [choice('a', 3, 200), choice('b', 1), choice('c', 1)];
    const helped = (i: number, j: number): number => (i + j === 3 ? 2 : 0);
    expect(bestSubset(choices, helped, { cost: 200, hours: null })?.members).toEqual([1, 2]);
    expect(bestSubset(choices, none, { cost: 200, hours: null })?.members).toEqual([0]);
  });

  it('never joins what excludes each other', () => {
    const best = bestSubset([choice('a', 2), choice('b', 1.9)], () => null, FREE);
    expect(best?.members).toEqual([0]);
  });

  it('can hold nothing that does not state what it costs, once there is a budget', () => {
    const choices = [choice('a', 5, null), choice('b', 1)];
    expect(bestSubset(choices, none, { cost: 1000, hours: null })?.members).toEqual([1]);
    expect(bestSubset(choices, none, { cost: null, hours: 1000 })?.members).toEqual([0, 1]);
  });

  it('keeps to hours as to money', () => {
    const choices = [choice('a', 2, 1, 8), choice('b', 1.5, 1, 4), choice('c', 1, 1, 4)];
    expect(bestSubset(choices, none, { cost: null, hours: 8 })?.members).toEqual([1, 2]);
  });

  it('takes the cheaper of two that gain the same', () => {
    expect(bestSubset([choice('a', 2, 300), choice('b', 2, 200)], () => null, FREE)?.members).toEqual([1]);
  });

  it('is nothing where nothing gains or nothing fits', () => {
    expect(bestSubset([choice('a', -1)], none, FREE)).toBeNull();
    expect(bestSubset([choice('a', 1)], none, { cost: 50, hours: null })).toBeNull();
    expect(bestSubset([], none, FREE)).toBeNull();
  });

  const amounts = fc.array(
    fc.record({
      gainPct: fc.integer({ min: -30, max: 60 }).map((n) => n / 10),
      cost: fc.option(fc.integer({ min: 0, max: 500 }), { nil: null }),
      hours: fc.option(fc.integer({ min: 0, max: 40 }), { nil: null }),
    }),
    { maxLength: 20 },
  );
  it('never exceeds a budget, of money or of hours, few choices or many', () => {
    const money = fc.integer({ min: 0, max: 1500 });
    const time = fc.integer({ min: 0, max: 60 });
    const held = fc.property(amounts, money, time, (list, cost, hours) => {
      const choices = list.map((entry, i) => ({ name: `change ${i}`, ...entry }));
      const crossed = (i: number, j: number): number | null => ((i + j) % 5 === 0 ? null : ((i * j) % 3) - 1);
      const members = bestSubset(choices, crossed, { cost, hours })?.members ?? [];
      const spent = (of: 'cost' | 'hours'): number =>
        members.reduce((sum, i) => sum + (choices[i][of] ?? Number.NaN), 0);
      expect(spent('cost')).toBeLessThanOrEqual(cost);
      expect(spent('hours')).toBeLessThanOrEqual(hours);
      for (const i of members) for (const j of members) if (i < j) expect((i + j) % 5).not.toBe(0);
    });
    fc.assert(held, { numRuns: 60 });
  });

  it('is as good as the best of all sets, looked at one by one', () => {
    const tenths = fc.array(fc.integer({ min: -20, max: 40 }), { minLength: 1, maxLength: 8 });
    const best = fc.property(tenths, fc.integer({ min: 1, max: 6 }), (gains, most) => {
      const choices = gains.map((gain, i) => choice(`change ${i}`, gain / 10, 1));
      const crossed = (i: number, j: number): number => ((i + 2 * j) % 4) / 4 - 0.3;
      const found = bestSubset(choices, crossed, { cost: most, hours: null });
      let highest = 0;
      for (let bits = 0; bits < 2 ** gains.length; bits++) {
        const set = choices.map((_, i) => i).filter((i) => (bits >> i) & 1);
        if (set.length > most) continue;
        let worth = 0;
        for (const i of set) {
          worth += choices[i].gainPct - LEAST_GAIN_PCT;
          for (const j of set) if (j < i) worth += crossed(j, i);
        }
        highest = Math.max(highest, worth);
      }
      expect((found?.gainPct ?? 0) - LEAST_GAIN_PCT * (found?.members.length ?? 0)).toBeCloseTo(highest, 9);
    });
    fc.assert(best, { numRuns: 60 });
  });
});
