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

export async function resultOf(check: PublishedCase): Promise<CaseResult> {
  const known = computed.get(check);
  if (known !== undefined) return known;
  const ours = await check.compute();
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
export async function allResults(
  onSource: (title: string) => void = () => {},
): Promise<readonly SourceResult[]> {
  const all: SourceResult[] = [];
  for (const source of [...QUICK_SOURCES, ...SLOW_SOURCES]) {
    onSource(source.title);
    const results: CaseResult[] = [];
    for (const check of source.cases) results.push(await resultOf(check));
    all.push({ source, results });
  }
  return all;
}
