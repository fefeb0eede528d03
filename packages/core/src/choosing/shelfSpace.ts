/** A shelf as a space of builds: the alternatives of each group with what the engine has now among them, and which may be had together. */

import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import { currentValue } from '../changes/currentValue.ts';
import { totalSpent } from '../changes/totalSpent.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { type SearchSpace, sizeOf } from './buildSpace.ts';
import { cheapestBuild, type NoBuild } from './cheapestBuild.ts';
import type { Build } from './effectModel.ts';
import { inUnitOf } from './readShelf.ts';
import type { Shelf, ShelfGroup, ShelfLimits } from './shelf.ts';
import { changesOf, type Groups, type Level, rulesOf, type ShelfRule } from './shelfRules.ts';

/** The builds of a shelf. */
export interface ShelfSpace {
  readonly groups: Groups;
  readonly space: SearchSpace;
  /** What the limits ask of builds, money and hours besides. */
  readonly rules: readonly ShelfRule[];
  readonly limits: ShelfLimits;
  /** All builds, those that may not be had among them. */
  readonly size: number;
}

/** What a build costs and takes; null where a part does not say. */
export interface Price {
  readonly cost: number | null;
  readonly hours: number | null;
}

/** The builds, or why there is none to begin with: what keeps the limits of money, hours and fields. */
export function shelfSpace(
  baseline: Baseline,
  shelf: Shelf,
  sheet: SheetSource | undefined,
): ShelfSpace | NoBuild {
  const groups = shelf.groups.map((group) => ({ name: group.name, levels: levelsOf(baseline, group) }));
  const factors = groups.map(({ levels }, g) => ({
    levels: levels.length,
    ordered: shelf.groups[g].field !== null,
  }));
  const { limits } = shelf;
  const rules = rulesOf(baseline, groups, limits, sheet);
  const allowed = (build: Build): boolean => {
    const { cost, hours } = priceOf(changesOf(groups, build));
    return (
      within(cost, limits.cost) && within(hours, limits.hours) && rules.every(({ keeps }) => keeps(build))
    );
  };
  const home = homeOf(groups, allowed, rules, limits);
  if (typeof home === 'string') return home;
  const space = { factors, allowed, home };
  return { groups, space, rules, limits, size: sizeOf(space) };
}

/**
 * The choices that no build within the limits has, as group and level.
 *
 * @param listed - all builds within the limits; null where they are too many to list
 */
export function neverTaken(
  { groups, rules, limits }: ShelfSpace,
  listed: readonly Build[] | null,
): readonly (readonly [group: number, level: number])[] {
  const choices = groups.flatMap(({ levels }, g) => levels.map((_, l) => [g, l] as const));
  if (listed !== null) {
    const taken = new Set(listed.flatMap((build) => build.map((level, g) => `${g} ${level}`)));
    return choices.filter(([g, l]) => !taken.has(`${g} ${l}`));
  }
  return choices.filter(([g, l]) => {
    const alone: ShelfRule = { groups: [g], keeps: (build) => build[g] === l };
    return cheapestBuild(groups, [...rules, alone], limits) === 'none-keeps';
  });
}

/** A name that no other build of the shelf has. */
export function buildName(changes: readonly Change[]): string {
  return changes.length === 0 ? 'as it is' : changes.map(({ name }) => name).join(' + ');
}

/** Summed; null where a part does not say. */
export function priceOf(changes: readonly Change[]): Price {
  return { cost: totalSpent(changes, 'cost'), hours: totalSpent(changes, 'hours') };
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

/** The engine as it is, where that may be had; else the cheapest build that may. */
function homeOf(
  groups: Groups,
  allowed: SearchSpace['allowed'],
  rules: readonly ShelfRule[],
  limits: ShelfLimits,
): Build | NoBuild {
  const asItIs = groups.map(({ levels }) => Math.max(0, levels.indexOf(null)));
  return allowed(asItIs) ? asItIs : cheapestBuild(groups, rules, limits);
}
