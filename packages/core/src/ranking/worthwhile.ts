/** The one rule by which a change is worth having: best set and order of tests both keep to it. */
import { LEAST_GAIN_PCT } from '../changes/notModelled.ts';
import type { PairVerdict } from './interaction.ts';

/** A change as far as its worth goes. */
export interface Candidate {
  readonly name: string;
  readonly gainPct: number;
  /** Null where it was not worked out. */
  readonly chanceOfGain: number | null;
  /** Why it can't be had, or why its gain can't be told, in words; null: nothing against it. */
  readonly against: string | null;
  /** The change that takes away what is against it, once that is on; null: none does. */
  readonly enabledBy: string | null;
}

/** What two changes do to each other. */
export interface Link {
  readonly a: string;
  readonly b: string;
  readonly interactionPct: number;
  readonly verdict: PairVerdict;
}

/** The change that makes another worthwhile, or allowed: on before it. */
export interface Unlock extends Link {
  readonly first: string;
}

/** A gain as large as this is worth a test though it is likelier to be none [%]. */
const WORTH_A_TEST_PCT = 0.5;

/** What {@link worthOf} knows of each change. */
export interface ChangeWorth {
  /** Gain to expect: alone, or with the change on that makes it worthwhile or allowed [%]. */
  readonly expectedPct: number;
  /** That change; null where there is none. */
  readonly unlock: Unlock | null;
  /** What is worth having only with it on, against a limit that it moves; null: nothing. */
  readonly enables: string | null;
  /** Whether it is worth having at all. */
  readonly isWorthwhile: boolean;
}

/**
 * By name. A change is worth having where nothing is against it, where it is expected to gain more than {@link LEAST_GAIN_PCT}, alone
 * or with the change on that makes it worthwhile, and where a gain is likelier than none or the gain a large one. What another change
 * takes away counts no more against it, and that other is then worth having for its sake: a fuel that gains nothing, for the compression
 * that it bears.
 */
export function worthOf(
  candidates: readonly Candidate[],
  links: readonly Link[],
  resolvablePct: number,
): ReadonlyMap<string, ChangeWorth> {
  const open = candidates.filter(({ against }) => against === null);
  const unlocks = unlocking(open, links, resolvablePct);
  const worths = new Map(
    candidates.map(({ name, gainPct, chanceOfGain, against, enabledBy }): [string, ChangeWorth] => {
      const unlock = (against === null ? unlocks.get(name) : enabling(name, enabledBy, links)) ?? null;
      const isAllowed = against === null || unlock !== null;
      const expectedPct = gainPct + (unlock?.interactionPct ?? 0);
      const isLikely = (chanceOfGain ?? 1) >= 0.5 || expectedPct > WORTH_A_TEST_PCT;
      const isWorthwhile = isAllowed && expectedPct > LEAST_GAIN_PCT && isLikely;
      return [name, { expectedPct, unlock, enables: null, isWorthwhile }];
    }),
  );
  for (const { name, against } of [...candidates].sort(byGain)) {
    const worth = worths.get(name);
    if (against === null || worth === undefined || worth.unlock === null || !worth.isWorthwhile) continue;
    const { first } = worth.unlock;
    const bearer = worths.get(first);
    if (bearer === undefined) continue;
    worths.set(first, { ...bearer, enables: bearer.enables ?? name, isWorthwhile: true });
  }
  return worths;
}

/** What bears a change against which a limit stands. */
function enabling(name: string, by: string | null, links: readonly Link[]): Unlock | null {
  const link = links.find(({ a, b }) => (a === name && b === by) || (b === name && a === by));
  return link === undefined || by === null ? null : { ...link, first: by };
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
