/** The steps of a plan of tests, with why each stands where it does. */

import { isTearDown } from '../changes/access.ts';
import type { Access } from '../reading/fields/access.ts';
import type { Candidate, ChangeWorth } from './worthwhile.ts';

/** A change as far as the order of tests goes. */
export interface TestCandidate extends Candidate {
  readonly access: Access;
  readonly reversible: boolean;
  readonly cost: number | null;
  readonly hours: number | null;
  readonly insteadOf: string | null;
  readonly tieGroup: number;
  /** Pulls a side its gain asks for; null: more than anyone makes. */
  readonly pulls: number | null;
}

/** One step. `baseline`: pull the engine as it stands before the next test. `test`: fit the change and pull. `leave`: no test. */
export interface TestStep {
  /** What to do. */
  readonly action: 'baseline' | 'test' | 'leave';
  /** Name of the change; null where the step is not about one. */
  readonly change: string | null;
  /** Pulls of this step; null where none are made. */
  readonly pulls: number | null;
  /** Gain to expect of the change at that place, with what was fitted before it [%]. */
  readonly expectedGainPct: number | null;
  /** Whether the best set has it; false where the step is not about a change. */
  readonly inBestSet: boolean;
  /** Why here, for people. */
  readonly why: string;
}

export function baselineStep(
  after: TestCandidate | null,
  pulls: number,
  unlock: { readonly first: string } | null,
): TestStep {
  const step = (why: string): TestStep => ({
    action: 'baseline',
    change: null,
    pulls,
    expectedGainPct: null,
    inBestSet: false,
    why,
  });
  if (after === null) return step('the engine as it stands');
  if (!after.reversible) return step(`${after.name} can't come off, so this is the new baseline`);
  if (unlock?.first === after.name) return step(`${after.name} stays on, since what follows builds on it`);
  const first = unlock === null ? '' : `, with ${unlock.first} on`;
  return step(`${after.name} off again${first}: it must repeat the baseline, or nothing between counts`);
}

export function testStep(
  c: TestCandidate,
  before: TestCandidate | null,
  worth: ChangeWorth | undefined,
  pulls: number,
  inBestSet: boolean,
): TestStep {
  const unlock = worth?.unlock ?? null;
  const shares = before !== null && isTearDown(c.access) && before.access === c.access;
  const reasons = [
    c.access === 'settings' ? 'a setting' : c.access,
    c.reversible ? 'comes off again' : 'stays on',
    ...(shares ? [`shares the tear-down of ${before.name}`] : []),
    ...(worth === undefined || worth.enables === null ? [] : [`${worth.enables} needs it`]),
    ...(unlock === null
      ? []
      : [
          c.against === null ? `worth more once ${unlock.first} is on` : `allowed once ${unlock.first} is on`,
        ]),
  ];
  return {
    action: 'test',
    change: c.name,
    pulls: Math.max(pulls, c.pulls ?? pulls),
    expectedGainPct: worth?.expectedPct ?? c.gainPct,
    inBestSet,
    why: reasons.join(', '),
  };
}

export function faintStep(c: TestCandidate, expectedGainPct: number, inBestSet: boolean): TestStep {
  const why = c.pulls === null ? 'too small for this dyno' : `${c.pulls} pulls a side would show it`;
  return { action: 'test', change: c.name, pulls: c.pulls, expectedGainPct, inBestSet, why };
}

export function leaveStep(c: TestCandidate, rival: string | null): TestStep {
  const own = c.gainPct > 0 ? 'too little to gain' : 'more likely to lose than to gain';
  const why = c.against ?? (rival === null ? own : `${rival} in its place is better`);
  return { action: 'leave', change: c.name, pulls: null, expectedGainPct: c.gainPct, inBestSet: false, why };
}
