/** Every published case with the program's value, each computed once. */
import { errorOf, holds, type PublishedCase, type PublishedSource } from '../published/publishedCase.ts';
import { QUICK_SOURCES, SLOW_SOURCES } from '../published/publishedSources.ts';

export interface CaseResult {
  readonly check: PublishedCase;
  /** The program's value, in the case's unit. */
  readonly ours: number;
  readonly holds: boolean;
  /** Error over what is allowed, either sign taken off; null where the case is a bound or allows none. */
  readonly share: number | null;
}

export interface SourceResult {
  readonly source: PublishedSource;
  readonly results: readonly CaseResult[];
}

const computed = new Map<PublishedCase, CaseResult>();

export function resultOf(check: PublishedCase): CaseResult {
  const known = computed.get(check);
  if (known !== undefined) return known;
  const ours = check.compute();
  const compared = (check.relation ?? 'equal') === 'equal' && check.within > 0;
  const result: CaseResult = {
    check,
    ours,
    holds: holds(check, ours),
    share: compared ? Math.abs(errorOf(check, ours)) / check.within : null,
  };
  computed.set(check, result);
  return result;
}

/** All sources; `onSource` hears of each before it is computed. */
export function allResults(onSource: (title: string) => void = () => {}): readonly SourceResult[] {
  return [...QUICK_SOURCES, ...SLOW_SOURCES].map((source) => {
    onSource(source.title);
    return { source, results: source.cases.map(resultOf) };
  });
}
