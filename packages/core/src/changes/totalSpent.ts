/** What several changes cost or take together. */
import type { Change } from './change.ts';

/** Sum of costs, in the shop's money, or of hours; null where a change does not state it. */
export function totalSpent(
  changes: readonly Pick<Change, 'cost' | 'hours'>[],
  of: 'cost' | 'hours',
): number | null {
  return changes.reduce<number | null>((sum, change) => {
    const own = change[of];
    return sum === null || own === null ? null : sum + own;
  }, 0);
}
