/** A change with the engine it gives, as uncertainty looks at it. */
import type { Result } from '../base/result.ts';
import { type ApplyOptions, applyChanges } from '../changes/applyChanges.ts';
import { assignedValues } from '../changes/assignedValues.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import type { Plain } from '../reading/combinationDocument.ts';

/** A change with the combination it gives. */
export interface AppliedChange {
  readonly change: Change;
  readonly combination: Combination;
  /** Value of each field the change edits, as it would stand in a file. */
  readonly values: ReadonlyMap<string, Plain>;
}

/** The change alone on the baseline, or what is wrong with it. */
export function appliedChange(
  baseline: Baseline,
  change: Change,
  options: ApplyOptions,
): Result<AppliedChange, Problem> {
  const applied = applyChanges(baseline, [change], options);
  if (!applied.ok) return applied;
  const values = assignedValues(baseline, [change], []);
  return { ok: true, value: { change, combination: applied.value, values } };
}
