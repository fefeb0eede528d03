/** The set of changes with the largest gain that a budget bears. */

import { LEAST_GAIN_PCT } from '../changes/notModelled.ts';

/** A change as far as choosing goes. */
export interface Choice {
  readonly name: string;
  readonly gainPct: number;
  /** Null: not stated, so that no budget can hold it. */
  readonly cost: number | null;
  readonly hours: number | null;
}

/** What may be spent; null: no limit. */
export interface Budget {
  /** Money, in the currency of the changes; null: no limit. */
  readonly cost: number | null;
  /** Working hours; null: no limit. */
  readonly hours: number | null;
}

/** A chosen set. */
export interface Subset {
  /** Indices of the choices, rising. */
  readonly members: readonly number[];
  /** Gains of the members and interactions of each pair of them [%]. */
  readonly gainPct: number;
  readonly cost: number;
  readonly hours: number;
}

/** Up to this many choices every set is looked at; beyond it the set is built up one by one. */
const EXHAUSTIVE = 16;

const NOTHING: Subset = { members: [], gainPct: 0, cost: 0, hours: 0 };

/**
 * Gains of the members plus the interaction of each pair of them; three at a time are taken to bring nothing new. Null
 * where no choice fits or none gains.
 *
 * @param interaction - of two choices by index [%]; null where they exclude each other
 * @param forbidden - sets that must not be chosen, each with its indices rising
 */
export function bestSubset(
  choices: readonly Choice[],
  interaction: (a: number, b: number) => number | null,
  budget: Budget,
  forbidden: readonly (readonly number[])[] = [],
): Subset | null {
  const eligible = choices
    .map((_, i) => i)
    .filter((i) => fits(add(NOTHING, i, choices, 0), choices[i], budget));
  const names = new Set(forbidden.map((members) => rising(members).join(' ')));
  const isForbidden = ({ members }: Subset): boolean => names.has(rising(members).join(' '));
  const question: SubsetQuestion = { eligible, choices, interaction, budget, isForbidden };
  const best = eligible.length <= EXHAUSTIVE ? searched(question) : grown(question);
  return best.members.length > 0 ? { ...best, members: rising(best.members) } : null;
}

/** What is asked, with the choices that fit the budget alone. */
interface SubsetQuestion {
  readonly eligible: readonly number[];
  readonly choices: readonly Choice[];
  readonly interaction: (a: number, b: number) => number | null;
  readonly budget: Budget;
  readonly isForbidden: (subset: Subset) => boolean;
}

function rising(members: readonly number[]): readonly number[] {
  return [...members].sort((a, b) => a - b);
}

/** Every set. */
function searched(question: SubsetQuestion): Subset {
  const { eligible, choices, isForbidden } = question;
  let best = NOTHING;
  const visit = (at: number, so: Subset): void => {
    if (!isForbidden(so) && better(so, best, choices)) best = so;
    for (let k = at; k < eligible.length; k++) {
      const more = extended(so, eligible[k], question);
      if (more !== null) visit(k + 1, more);
    }
  };
  visit(0, NOTHING);
  return best;
}

/** The best choice first, then whichever adds most to it. */
function grown(question: SubsetQuestion): Subset {
  const { eligible, choices, isForbidden } = question;
  let best = NOTHING;
  for (;;) {
    const next = eligible
      .filter((i) => !best.members.includes(i))
      .map((i) => extended(best, i, question))
      .filter((subset) => subset !== null)
      .filter((subset) => !isForbidden(subset))
      .reduce((a, b) => (better(b, a, choices) ? b : a), best);
    if (next === best) return best;
    best = next;
  }
}

/** With one choice more; null where it excludes a member, or the budget does not bear it. */
function extended(so: Subset, i: number, { choices, interaction, budget }: SubsetQuestion): Subset | null {
  let crossed = 0;
  for (const j of so.members) {
    const pair = interaction(j, i);
    if (pair === null) return null;
    crossed += pair;
  }
  const more = add(so, i, choices, crossed);
  return fits(more, choices[i], budget) ? more : null;
}

function add(so: Subset, i: number, choices: readonly Choice[], crossed: number): Subset {
  const { gainPct, cost, hours } = choices[i];
  return {
    members: [...so.members, i],
    gainPct: so.gainPct + gainPct + crossed,
    cost: so.cost + (cost ?? 0),
    hours: so.hours + (hours ?? 0),
  };
}

function fits(subset: Subset, added: Choice, budget: Budget): boolean {
  const within = (spent: number, limit: number | null, own: number | null): boolean =>
    limit === null || (own !== null && spent <= limit);
  return within(subset.cost, budget.cost, added.cost) && within(subset.hours, budget.hours, added.hours);
}

/** More gain for each further member; among equals the cheaper, then the quicker, then by name. */
function better(one: Subset, other: Subset, choices: readonly Choice[]): boolean {
  const worth = ({ gainPct, members }: Subset): number => gainPct - LEAST_GAIN_PCT * members.length;
  const gain = worth(one) - worth(other);
  if (Math.abs(gain) > 1e-9) return gain > 0;
  if (one.cost !== other.cost) return one.cost < other.cost;
  if (one.hours !== other.hours) return one.hours < other.hours;
  const names = ({ members }: Subset): string =>
    members
      .map((i) => choices[i].name)
      .sort()
      .join('\n');
  return names(one) < names(other);
}
