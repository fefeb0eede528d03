/** A sensible order to test changes in. */
import { isTearDown } from '../changes/access.ts';
import { totalSpent } from '../changes/totalSpent.ts';
import { ACCESS } from '../reading/fields/access.ts';
import {
  baselineStep,
  faintStep,
  leaveStep,
  type TestCandidate,
  type TestStep,
  testStep,
} from './testSteps.ts';
import { byGain, type ChangeWorth, type Link, type Unlock, worthOf } from './worthwhile.ts';

/** What to test, in which order, and what that takes. */
export interface TestPlan {
  /** Baselines and tests in their order. */
  readonly steps: readonly TestStep[];
  /** Why to stop behind them, for people; null where nothing is left to test. */
  readonly stop: string | null;
  /** Worth having, and less than the dyno can show. */
  readonly beyond: readonly TestStep[];
  /** Not worth a test. */
  readonly leave: readonly TestStep[];
  /** Of the steps: what has to be bought, pulled and worked. */
  readonly bill: TestBill;
}

/** What the steps of a plan take. */
export interface TestBill {
  /** Pulls of all steps. */
  readonly pulls: number;
  /** Hours to fit what is tested; taking off is not counted. Null where a change does not state its hours. */
  readonly fittingHours: number | null;
  /** Fitting, and ten minutes for each pull [h]. */
  readonly cellHours: number | null;
  /** Money of what is tested; null where a change does not state its cost. */
  readonly cost: number | null;
}

/** Warming up, pulling and cooling down of one pull [min]; common practice, no source. */
export const MINUTES_A_PULL = 10;

/** What the order has to know besides the candidates. */
export interface OrderOptions {
  readonly resolvablePct: number;
  readonly pulls: number;
  /** Names of the best set. */
  readonly bestSet?: readonly string[];
}

/**
 * Reversible and on the stand first, then as deep as the engine has to come apart, so that one tear-down serves all that
 * need it; quick before slow, large before small. A change that another makes worthwhile comes after that other, and one that only makes
 * room for another directly before it. A baseline is pulled before and after each test. Apart from them what the dyno could not tell, and what to leave. What the best set
 * has is never left.
 */
export function testOrder(
  candidates: readonly TestCandidate[],
  links: readonly Link[],
  { resolvablePct, pulls, bestSet = [] }: OrderOptions,
): TestPlan {
  const worths = worthOf(candidates, links, resolvablePct);
  const worth = ({ name }: TestCandidate): ChangeWorth | undefined => worths.get(name);
  const expected = (c: TestCandidate): number => worth(c)?.expectedPct ?? c.gainPct;
  const unlock = (c: TestCandidate): Unlock | null => worth(c)?.unlock ?? null;
  const isBest = ({ name }: TestCandidate): boolean => bestSet.includes(name);
  const rivals = rivalOf(
    candidates.filter((c) => c.against === null || unlock(c) !== null),
    isBest,
  );
  const tests = candidates.filter((c) => worth(c)?.isWorthwhile === true && !rivals.has(c.name));
  const left = candidates.filter((c) => !tests.includes(c));
  const tells = (c: TestCandidate): boolean => expected(c) >= resolvablePct;
  // What makes room for a change that shows is on before it, however little it gains itself.
  const isNeeded = (c: TestCandidate): boolean =>
    tests.some((other) => other.name === worth(c)?.enables && tells(other));
  const telling = tests.filter((c) => tells(c) || isNeeded(c)).sort(byEffort);
  const faint = tests.filter((c) => !telling.includes(c)).sort(byEffort);
  // Nothing to see alone: fitted where it is needed, its pulls are the baseline of what follows.
  const onlyServes = (c: TestCandidate): boolean => isNeeded(c) && !tells(c);
  const ordered = besideWhatTheyServe(afterWhatUnlocks(telling, unlock), onlyServes, worth);
  const steps: TestStep[] = ordered.flatMap((c, i) => {
    const before = i === 0 ? null : ordered[i - 1];
    const apartFor = ordered.slice(0, i).filter((other) => !onlyServes(other));
    const test = testStep(c, apartFor.at(-1) ?? null, worth(c), pulls, isBest(c));
    if (before !== null && onlyServes(before) && unlock(c)?.first === before.name) return [test];
    return [baselineStep(before, Math.max(pulls, c.pulls ?? pulls), unlock(c)), test];
  });
  if (ordered.length > 0) steps.push(baselineStep(ordered[ordered.length - 1], pulls, null));
  return {
    steps,
    stop:
      faint.length === 0
        ? null
        : `all else that gains promises less than the ${resolvablePct.toFixed(1)} % that ${pulls} pulls a side can show`,
    beyond: faint.map((c) => faintStep(c, expected(c), isBest(c))),
    leave: [...left].sort(byGain).map((c) => leaveStep(c, rivals.get(c.name) ?? null)),
    bill: billOf(steps, ordered),
  };
}

function billOf(steps: readonly TestStep[], tested: readonly TestCandidate[]): TestBill {
  const pulls = steps.reduce((sum, step) => sum + (step.pulls ?? 0), 0);
  const fittingHours = totalSpent(tested, 'hours');
  return {
    pulls,
    fittingHours,
    cellHours: fittingHours === null ? null : fittingHours + (pulls * MINUTES_A_PULL) / 60,
    cost: totalSpent(tested, 'cost'),
  };
}

/** Of changes that exclude each other, those that a settled better one beats, each with the name of the best. */
function rivalOf(
  candidates: readonly TestCandidate[],
  isKept: (c: TestCandidate) => boolean,
): ReadonlyMap<string, string> {
  const beaten = new Map<string, string>();
  for (const group of new Set(candidates.map((c) => c.insteadOf))) {
    if (group === null) continue;
    const members = candidates.filter((c) => c.insteadOf === group).sort(byGain);
    for (const c of members.slice(1))
      if (c.tieGroup > members[0].tieGroup && !isKept(c)) beaten.set(c.name, members[0].name);
  }
  return beaten;
}

function afterWhatUnlocks(
  sorted: readonly TestCandidate[],
  unlock: (c: TestCandidate) => { readonly first: string } | null,
): readonly TestCandidate[] {
  const ordered = [...sorted];
  // A change waits for one of larger gain; what a limit stands against waits for what bears it, and nothing for that: no two for each other.
  const waits = [...sorted].sort(
    (x, y) => Number(x.against !== null) - Number(y.against !== null) || byGain(x, y),
  );
  for (const c of waits) {
    const first = ordered.findIndex(({ name }) => name === unlock(c)?.first);
    const own = ordered.indexOf(c);
    if (first <= own) continue;
    ordered.splice(own, 1);
    ordered.splice(first, 0, c);
  }
  return ordered;
}

/** Those that only make room for another, directly before it. */
function besideWhatTheyServe(
  sorted: readonly TestCandidate[],
  onlyServes: (c: TestCandidate) => boolean,
  worth: (c: TestCandidate) => ChangeWorth | undefined,
): readonly TestCandidate[] {
  const serving = sorted.filter(onlyServes);
  return sorted
    .filter((c) => !serving.includes(c))
    .flatMap((c) => [...serving.filter((other) => worth(other)?.enables === c.name), c]);
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
