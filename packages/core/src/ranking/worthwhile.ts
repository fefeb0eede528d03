/** The one rule by which a change is worth having: best set and order of tests both keep to it. */
import type { Verdict } from './interaction.ts';

/** A change as far as its worth goes. */
export interface Candidate {
  readonly name: string;
  readonly gainPct: number;
  /** Null where it was not worked out. */
  readonly chanceOfGain: number | null;
  /** Why it can't be had, or why its gain can't be told, in words; null: nothing against it. */
  readonly against: string | null;
}

/** What two changes do to each other. */
export interface Link {
  readonly a: string;
  readonly b: string;
  readonly interactionPct: number;
  readonly verdict: Verdict;
}

/** The larger change that makes a smaller one worthwhile. */
export interface Unlock extends Link {
  readonly first: string;
}

/** A gain as small as this is none, alone or beside what else is fitted [%]. */
export const LEAST_GAIN_PCT = 0.1;

/** A gain as large as this is worth a test though it is likelier to be none [%]. */
const WORTH_A_TEST_PCT = 0.5;

/** What {@link worthOf} knows of each change. */
export interface Worth {
  /** Gain to expect: alone, or with the change on that makes it worthwhile [%]. */
  readonly expectedPct: number;
  /** That change; null where there is none. */
  readonly unlock: Unlock | null;
  /** Whether it is worth having at all. */
  readonly isWorthwhile: boolean;
}

/**
 * By name. A change is worth having where nothing is against it, where it is expected to gain more than {@link LEAST_GAIN_PCT}, alone
 * or with the change on that makes it worthwhile, and where a gain is likelier than none or the gain a large one.
 */
export function worthOf(
  candidates: readonly Candidate[],
  links: readonly Link[],
  resolvablePct: number,
): ReadonlyMap<string, Worth> {
  const open = candidates.filter(({ against }) => against === null);
  const unlocks = unlocking(open, links, resolvablePct);
  return new Map(
    candidates.map(({ name, gainPct, chanceOfGain, against }) => {
      const unlock = unlocks.get(name) ?? null;
      const expectedPct = gainPct + (unlock?.interactionPct ?? 0);
      const isLikely = (chanceOfGain ?? 1) >= 0.5 || expectedPct > WORTH_A_TEST_PCT;
      return [
        name,
        { expectedPct, unlock, isWorthwhile: against === null && expectedPct > LEAST_GAIN_PCT && isLikely },
      ];
    }),
  );
}

/** For each change that a larger one makes worthwhile, the link to the one that helps it most. */
function unlocking(
  candidates: readonly Candidate[],
  links: readonly Link[],
  resolvablePct: number,
): ReadonlyMap<string, Unlock> {
  const found = new Map<string, Unlock>();
  const named = new Map(candidates.map((c) => [c.name, c]));
  const sorted = [...links].sort(
    (x, y) => y.interactionPct - x.interactionPct || (pairName(x) < pairName(y) ? -1 : 1),
  );
  for (const link of sorted) {
    const a = named.get(link.a);
    const b = named.get(link.b);
    if (a === undefined || b === undefined || link.verdict !== 'helps') continue;
    const [large, small] = byGain(a, b) <= 0 ? [a, b] : [b, a];
    const worthwhile = small.gainPct < resolvablePct && link.interactionPct >= 0.25 * Math.abs(small.gainPct);
    if (large.gainPct > 0 && worthwhile && !found.has(small.name))
      found.set(small.name, { ...link, first: large.name });
  }
  return found;
}

/** Largest gain first, equals by name. */
export function byGain(a: Candidate, b: Candidate): number {
  return b.gainPct - a.gainPct || (a.name < b.name ? -1 : 1);
}

function pairName({ a, b }: Link): string {
  return [a, b].sort().join('\n');
}
