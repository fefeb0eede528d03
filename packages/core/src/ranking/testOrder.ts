/** A sensible order to test changes in. */
import { ACCESS, type Access, isTearDown } from '../changes/access.ts';
import type { Verdict } from './interaction.ts';

/** A change as far as the order of tests goes. */
export interface TestCandidate {
  readonly name: string;
  readonly gainPct: number;
  /** Null where it was not worked out. */
  readonly chanceOfGain: number | null;
  readonly access: Access;
  readonly reversible: boolean;
  readonly hours: number | null;
  readonly insteadOf: string | null;
  readonly tieGroup: number;
  /** Pulls a side its gain asks for; null: more than anyone makes. */
  readonly pulls: number | null;
  /** A limit that it breaks, in words; null: it is allowed. */
  readonly forbidden: string | null;
}

/** What two changes do to each other. */
export interface Link {
  readonly a: string;
  readonly b: string;
  readonly interactionPct: number;
  readonly verdict: Verdict;
}

/**
 * One step. `baseline`: pull the engine as it stands before the next test. `test`: fit the change and pull. `stop`: what
 * follows promises less than the dyno can tell. `leave`: not worth a test.
 */
export interface TestStep {
  /** What to do. */
  readonly action: 'baseline' | 'test' | 'stop' | 'leave';
  /** Name of the change; null where the step is not about one. */
  readonly change: string | null;
  /** Pulls of this step. */
  readonly pulls: number | null;
  /** Gain to expect of the change at that place, with what was fitted before it [%]. */
  readonly expectedGainPct: number | null;
  /** Why here, for people. */
  readonly why: string;
}

/** What the order has to know besides the candidates. */
export interface OrderOptions {
  readonly resolvablePct: number;
  readonly pulls: number;
}

/**
 * Reversible and on the stand first, then as deep as the engine has to come apart, so that one tear-down serves all that
 * need it; quick before slow, large before small. A change that another makes worthwhile comes after that other. A
 * baseline is pulled before and after each test. Last, behind a stop, what the dyno could not tell, and what to leave.
 */
export function testOrder(
  candidates: readonly TestCandidate[],
  links: readonly Link[],
  { resolvablePct, pulls }: OrderOptions,
): readonly TestStep[] {
  const allowed = candidates.filter(({ forbidden }) => forbidden === null);
  const unlocks = unlocking(allowed, links, resolvablePct);
  const expected = (c: TestCandidate): number => c.gainPct + (unlocks.get(c.name)?.interactionPct ?? 0);
  const rivals = rivalOf(allowed);
  const left = candidates.filter(
    (c) => c.forbidden !== null || rivals.has(c.name) || !isPromising(c, expected(c)),
  );
  const tests = candidates.filter((c) => !left.includes(c));
  const telling = tests.filter((c) => expected(c) >= resolvablePct).sort(byEffort);
  const faint = tests.filter((c) => expected(c) < resolvablePct).sort(byEffort);
  const ordered = afterWhatUnlocks(telling, unlocks);
  const steps: TestStep[] = ordered.flatMap((c, i) => [
    baselineStep(
      i === 0 ? null : ordered[i - 1],
      Math.max(pulls, c.pulls ?? pulls),
      unlocks.get(c.name) ?? null,
    ),
    testStep(c, i === 0 ? null : ordered[i - 1], unlocks.get(c.name) ?? null, expected(c), pulls),
  ]);
  if (ordered.length > 0) steps.push(baselineStep(ordered[ordered.length - 1], pulls, null));
  if (faint.length > 0) {
    const why = `what follows promises less than the ${resolvablePct.toFixed(1)} % that ${pulls} pulls a side can tell`;
    steps.push({ action: 'stop', change: null, pulls: null, expectedGainPct: null, why });
    steps.push(...faint.map((c) => faintStep(c, expected(c))));
  }
  return [...steps, ...[...left].sort(byGain).map((c) => leaveStep(c, rivals.get(c.name) ?? null))];
}

/** A gain as small as this is none [%]. */
const LEAST_GAIN_PCT = 0.1;

function isPromising({ chanceOfGain }: TestCandidate, expectedGainPct: number): boolean {
  return expectedGainPct > LEAST_GAIN_PCT && ((chanceOfGain ?? 1) >= 0.5 || expectedGainPct > 0.5);
}

/** For each change that a larger one makes worthwhile, the link to the one that helps it most. */
function unlocking(
  candidates: readonly TestCandidate[],
  links: readonly Link[],
  resolvablePct: number,
): ReadonlyMap<string, Link & { readonly first: string }> {
  const found = new Map<string, Link & { readonly first: string }>();
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

/** Of changes that exclude each other, those that a settled better one beats, each with the name of the best. */
function rivalOf(candidates: readonly TestCandidate[]): ReadonlyMap<string, string> {
  const beaten = new Map<string, string>();
  for (const group of new Set(candidates.map((c) => c.insteadOf))) {
    if (group === null) continue;
    const members = candidates.filter((c) => c.insteadOf === group).sort(byGain);
    for (const c of members.slice(1))
      if (c.tieGroup > members[0].tieGroup) beaten.set(c.name, members[0].name);
  }
  return beaten;
}

function afterWhatUnlocks(
  sorted: readonly TestCandidate[],
  unlocks: ReadonlyMap<string, { readonly first: string }>,
): readonly TestCandidate[] {
  const ordered = [...sorted];
  // A change is unlocked only by one of larger gain, so that no two wait for each other.
  for (const c of [...sorted].sort(byGain)) {
    const first = ordered.findIndex(({ name }) => name === unlocks.get(c.name)?.first);
    const own = ordered.indexOf(c);
    if (first <= own) continue;
    ordered.splice(own, 1);
    ordered.splice(first, 0, c);
  }
  return ordered;
}

function byEffort(a: TestCandidate, b: TestCandidate): number {
  return (
    Number(b.reversible && !isTearDown(b.access)) - Number(a.reversible && !isTearDown(a.access)) ||
    ACCESS.indexOf(a.access) - ACCESS.indexOf(b.access) ||
    hoursOf(a) - hoursOf(b) ||
    byGain(a, b)
  );
}

/** What states no hours may take any. */
function hoursOf({ hours }: TestCandidate): number {
  return hours ?? Number.MAX_VALUE;
}

function byGain(a: TestCandidate, b: TestCandidate): number {
  return b.gainPct - a.gainPct || (a.name < b.name ? -1 : 1);
}

function pairName({ a, b }: Link): string {
  return [a, b].sort().join('\n');
}

function baselineStep(
  after: TestCandidate | null,
  pulls: number,
  unlock: { readonly first: string } | null,
): TestStep {
  const step = (why: string): TestStep => ({
    action: 'baseline',
    change: null,
    pulls,
    expectedGainPct: null,
    why,
  });
  if (after === null) return step('the engine as it stands');
  if (!after.reversible) return step(`${after.name} can't come off, so this is the new baseline`);
  if (unlock?.first === after.name) return step(`${after.name} stays on, since what follows builds on it`);
  const first = unlock === null ? '' : `, with ${unlock.first} on`;
  return step(`${after.name} off again${first}: it must repeat the baseline, or nothing between counts`);
}

function testStep(
  c: TestCandidate,
  before: TestCandidate | null,
  unlock: { readonly first: string } | null,
  expectedGainPct: number,
  pulls: number,
): TestStep {
  const shares = before !== null && isTearDown(c.access) && before.access === c.access;
  const reasons = [
    c.access === 'settings' ? 'a setting' : c.access,
    c.reversible ? 'comes off again' : 'stays on',
    ...(shares ? [`shares the tear-down of ${before.name}`] : []),
    ...(unlock === null ? [] : [`worth more once ${unlock.first} is on`]),
  ];
  return {
    action: 'test',
    change: c.name,
    pulls: Math.max(pulls, c.pulls ?? pulls),
    expectedGainPct,
    why: reasons.join(', '),
  };
}

function faintStep(c: TestCandidate, expectedGainPct: number): TestStep {
  const why = c.pulls === null ? 'too small for this dyno' : `${c.pulls} pulls a side would tell it`;
  return { action: 'test', change: c.name, pulls: c.pulls, expectedGainPct, why };
}

function leaveStep(c: TestCandidate, rival: string | null): TestStep {
  const own = c.gainPct > 0 ? 'too little to gain' : 'more likely to lose than to gain';
  const why = c.forbidden ?? (rival === null ? own : `${rival} in its place is better`);
  return { action: 'leave', change: c.name, pulls: null, expectedGainPct: c.gainPct, why };
}
