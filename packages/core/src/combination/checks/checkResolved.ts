/** Cross-checks on the completed combination. */
import type { Combination } from '../combination.ts';
import type { Problem } from '../problem.ts';
import type { CombinationDocument } from '../readDocument.ts';
import type { ResolveContext } from '../resolve/context.ts';

export function checkResolved(
  _document: CombinationDocument,
  _context: ResolveContext,
  _combination: Combination,
): readonly Problem[] {
  return [];
}
