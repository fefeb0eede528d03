/** Which places of a ranking are settled, and which are not. */

/** Chance that one gain beats another from which their order counts as settled. */
export const SETTLED = 0.9;

/**
 * Tie group of each entry of a ranking, from 1, best first. An entry shares the group of the one before it unless the
 * leader of that group beats it with a chance of `settled` or more.
 *
 * @param count - entries, sorted by gain, largest first
 * @param chanceToBeat - chance that the gain of one entry is larger than that of another
 */
export function tieGroups(
  count: number,
  chanceToBeat: (one: number, other: number) => number,
  settled: number = SETTLED,
): readonly number[] {
  const groups: number[] = [];
  let leader = 0;
  for (let i = 0; i < count; i++) {
    const apart = i > 0 && chanceToBeat(leader, i) >= settled;
    if (apart) leader = i;
    groups.push(i === 0 ? 1 : groups[i - 1] + (apart ? 1 : 0));
  }
  return groups;
}
