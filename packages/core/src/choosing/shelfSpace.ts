/** A shelf as a space of builds: the alternatives of each group with what the engine has now among them, and which may be had together. */
import { assignedValues, currentValue } from '../changes/assignedValues.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import { firstOf, type SearchSpace, sizeOf } from './buildSpace.ts';
import type { Build } from './effectModel.ts';
import { inUnitOf } from './readShelf.ts';
import type { Shelf, ShelfGroup } from './shelf.ts';

/** A level of a group: a part or a size; null: what the engine has. */
export type Level = Change | null;

/** The builds of a shelf. */
export interface ShelfSpace {
  readonly groups: readonly { readonly name: string; readonly levels: readonly Level[] }[];
  readonly space: SearchSpace;
  /** All builds, those that may not be had among them. */
  readonly size: number;
}

/** What a build costs and takes; null where a part does not say. */
export interface Price {
  readonly cost: number | null;
  readonly hours: number | null;
}

/** Null where no build keeps the limits of money, hours and fields. */
export function shelfSpace(baseline: Baseline, shelf: Shelf): ShelfSpace | null {
  const groups = shelf.groups.map((group) => ({ name: group.name, levels: levelsOf(baseline, group) }));
  const factors = groups.map(({ levels }, g) => ({
    levels: levels.length,
    ordered: shelf.groups[g].field !== null,
  }));
  const { limits } = shelf;
  const ruled = Object.entries(limits.largest);
  const allowed = (build: Build): boolean => {
    const changes = changesOf(groups, build);
    const { cost, hours } = priceOf(changes);
    return (
      within(cost, limits.cost) &&
      within(hours, limits.hours) &&
      ruled.every(([path, largest]) => keeps(baseline, changes, path, largest))
    );
  };
  const home = homeOf(groups, { factors, allowed, home: [] });
  if (home === null) return null;
  const space = { factors, allowed, home };
  return { groups, space, size: sizeOf(space) };
}

/** What a build alters, in the order of the groups. */
export function changesOf(groups: ShelfSpace['groups'], build: Build): readonly Change[] {
  return build.flatMap((level, g) => groups[g].levels[level] ?? []);
}

/** A name that no other build of the shelf has. */
export function buildName(changes: readonly Change[]): string {
  return changes.length === 0 ? 'as it is' : changes.map(({ name }) => name).join(' + ');
}

/** Summed; null where a part does not say. */
export function priceOf(changes: readonly Change[]): Price {
  const total = (of: 'cost' | 'hours'): number | null =>
    changes.reduce<number | null>((sum, change) => {
      const own = change[of];
      return sum === null || own === null ? null : sum + own;
    }, 0);
  return { cost: total('cost'), hours: total('hours') };
}

function within(spent: number | null, limit: number | null): boolean {
  return limit === null || (spent !== null && spent <= limit + 1e-9);
}

/** Parts first what the engine has; a size where it lies among its values. */
function levelsOf(baseline: Baseline, { field, alternatives, mayStay }: ShelfGroup): readonly Level[] {
  if (field === null) return mayStay ? [null, ...alternatives] : alternatives;
  const own = currentValue(baseline, field);
  // How far what the engine has lies above each size, in that size's unit; null where it has none, or the two can't be compared.
  const above = alternatives.map(({ edits: [edit] }): number | null => {
    const value = edit.kind === 'set' ? edit.value : null;
    const [has, size] = [inUnitOf(value, own), inUnitOf(value, value)];
    return has === null || size === null ? null : has - size;
  });
  const same = above.findIndex((off) => off !== null && Math.abs(off) < 1e-9);
  if (same >= 0) return alternatives.map((change, i) => (i === same ? null : change));
  if (!mayStay) return alternatives;
  const below = above.filter((off) => off !== null && off > 0).length;
  return [...alternatives.slice(0, below), null, ...alternatives.slice(below)];
}

/** Whether a field of the build is no larger than it may be; a value that can't be held against the limit does not keep it. */
function keeps(
  baseline: Baseline,
  changes: readonly Change[],
  path: string,
  largest: number | string,
): boolean {
  const assigned = assignedValues(baseline, changes, []);
  const value = inUnitOf(largest, assigned.get(path) ?? currentValue(baseline, path));
  const most = inUnitOf(largest, largest);
  return value !== null && most !== null && value <= most + 1e-9 * Math.abs(most);
}

/** So many builds are looked through for one that keeps the limits, where they are kept by none that is near the cheapest. */
const MOST_WALKED = 20_000;

/** The engine as it is, where that may be had; else a build near the cheapest that keeps the rules. */
function homeOf(groups: ShelfSpace['groups'], { factors, allowed }: SearchSpace): Build | null {
  const asItIs = groups.map(({ levels }) => Math.max(0, levels.indexOf(null)));
  if (allowed(asItIs)) return asItIs;
  // A part that states no price comes last: no limit can hold it.
  const spent = (price: number | null): number => price ?? Number.MAX_VALUE;
  const orders = groups.map(({ levels }) =>
    levels
      .map((level, at) => ({
        at,
        cost: level === null ? 0 : spent(level.cost),
        hours: level === null ? 0 : spent(level.hours),
      }))
      .sort((a, b) => a.cost - b.cost || a.hours - b.hours),
  );
  // Cheapest first, and from there one group at a time until the rules are kept.
  const cheapest: Build = orders.map(([first]) => first.at);
  if (allowed(cheapest)) return cheapest;
  for (const [g, order] of orders.entries())
    for (const { at } of order) {
      const tried = cheapest.map((own, i) => (i === g ? at : own));
      if (allowed(tried)) return tried;
    }
  // Where groups keep them only together, any build that does.
  const inOrder = (build: Build): Build => build.map((place, g) => orders[g][place].at);
  const first = firstOf(factors, MOST_WALKED, (build) => allowed(inOrder(build)));
  return first === null ? null : inOrder(first);
}
