/** The cheapest build that keeps the limits of a shelf, found without trying every build. */
import { everyBuild } from './buildSpace.ts';
import type { Build } from './effectModel.ts';
import type { ShelfLimits } from './shelf.ts';
import type { Groups, Level, ShelfRule } from './shelfRules.ts';

/** Choices of some groups, with what they come to. */
interface Part {
  /** Level by group. */
  readonly levels: ReadonlyMap<number, number>;
  readonly cost: number;
  readonly hours: number;
}

/** Why there is no build: none keeps the limits, or none was found of those tried. */
export type NoBuild = 'none-keeps' | 'none-found';

/** So many builds of the groups that rules tie together are tried, the cheapest choices first. */
export const MOST_TRIED = 20_000;

/**
 * A rule ties together the groups that it looks at: their choices are tried together, and of those that
 * keep it none is taken on that another beats in money and hours. What is left of the groups adds up, one after the other.
 */
export function cheapestBuild(
  groups: Groups,
  rules: readonly ShelfRule[],
  limits: ShelfLimits,
): Build | NoBuild {
  const none: Part = { levels: new Map(), cost: 0, hours: 0 };
  let best: readonly Part[] = [none];
  let all = true;
  for (const tied of tiedGroups(groups.length, rules)) {
    const found = choicesOf(groups, tied, rules);
    all &&= found.all;
    const choices = unbeaten(found.parts, limits);
    best = unbeaten(
      best.flatMap((one) => choices.map((other) => together(one, other))),
      limits,
    );
  }
  const [first] = best;
  if (first === undefined) return all ? 'none-keeps' : 'none-found';
  return groups.map((_, g) => first.levels.get(g) ?? 0);
}

/** The groups in lots that no rule ties to one another. */
function tiedGroups(count: number, rules: readonly ShelfRule[]): readonly (readonly number[])[] {
  return rules.reduce<readonly (readonly number[])[]>(
    (sofar, rule) => {
      const met = sofar.filter((lot) => lot.some((g) => rule.groups.includes(g)));
      const rest = sofar.filter((lot) => !met.includes(lot));
      return met.length === 0 ? rest : [...rest, met.flat()];
    },
    Array.from({ length: count }, (_, g) => [g]),
  );
}

/** What the groups of a lot may have: the choices that keep the rules they are tied by, and whether all were tried. */
function choicesOf(
  groups: Groups,
  tied: readonly number[],
  rules: readonly ShelfRule[],
): { readonly parts: readonly Part[]; readonly all: boolean } {
  // A rule that no group moves is kept by all builds or by none: every lot looks at it.
  const own = rules.filter((rule) => rule.groups.every((g) => tied.includes(g)));
  const orders = tied.map((g) =>
    groups[g].levels
      .map((level, at) => ({ at, cost: spent(level, 'cost'), hours: spent(level, 'hours') }))
      .sort(cheaper),
  );
  const parts: Part[] = [];
  let tried = 0;
  for (const places of everyBuild(orders.map((order) => ({ levels: order.length, ordered: false })))) {
    if (tried === MOST_TRIED) return { parts, all: false };
    tried += 1;
    const taken = places.map((place, i) => orders[i][place]);
    const levels = new Map(tied.map((g, i) => [g, taken[i].at]));
    if (!own.every(({ keeps }) => keeps(groups.map((_, g) => levels.get(g) ?? 0)))) continue;
    const sum = (of: 'cost' | 'hours'): number => taken.reduce((sofar, level) => sofar + level[of], 0);
    parts.push({ levels, cost: sum('cost'), hours: sum('hours') });
  }
  return { parts, all: true };
}

/** No limit can hold a part that states no price. */
function spent(level: Level, of: 'cost' | 'hours'): number {
  return level === null ? 0 : (level[of] ?? Number.POSITIVE_INFINITY);
}

function together(one: Part, other: Part): Part {
  return {
    levels: new Map([...one.levels, ...other.levels]),
    cost: one.cost + other.cost,
    hours: one.hours + other.hours,
  };
}

/** Those within the limits that no other beats in what is limited, cheapest first. */
function unbeaten(parts: readonly Part[], limits: ShelfLimits): readonly Part[] {
  const within = (spent: number, limit: number | null): boolean => limit === null || spent <= limit + 1e-9;
  const kept: Part[] = [];
  const sound = parts.filter(({ cost, hours }) => within(cost, limits.cost) && within(hours, limits.hours));
  for (const part of sound.sort(cheaper)) {
    const least = kept.at(-1);
    if (least === undefined || (limits.hours !== null && part.hours < least.hours)) kept.push(part);
  }
  return kept;
}

function cheaper(a: Pick<Part, 'cost' | 'hours'>, b: Pick<Part, 'cost' | 'hours'>): number {
  // Of two that state no price neither is cheaper.
  const off = (one: number, other: number): number => (one === other ? 0 : one - other);
  return off(a.cost, b.cost) || off(a.hours, b.hours);
}
