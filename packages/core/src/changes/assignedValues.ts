/** The edits of some changes as one value a field. */
import { type EachResult, eachScaled, eachSum } from '../base/quantityArithmetic.ts';
import type { Problem } from '../combination/problem.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import { isWithin } from '../reading/fields/isWithin.ts';
import { fieldPaths } from '../reading/schema/fieldPaths.ts';
import type { Baseline } from './baseline.ts';
import type { Change, FieldEdit } from './change.ts';
import { currentValue } from './currentValue.ts';
import { isKnown, pathProblem } from './pathProblem.ts';
import { sourceProblem } from './sourceProblem.ts';

interface Placed {
  readonly change: Change;
  readonly edit: FieldEdit;
}

/** Value by path; what can't be done is put among `problems`. The order of the changes is of no account. */
export function assignedValues(
  baseline: Baseline,
  changes: readonly Change[],
  problems: Problem[],
): ReadonlyMap<string, Plain> {
  const known = fieldPaths();
  const byPath = new Map<string, Placed[]>();
  for (const change of changes) {
    for (const edit of change.edits) {
      const problem = unknownPath(change, edit, known);
      if (problem === null) byPath.set(edit.path, [...(byPath.get(edit.path) ?? []), { change, edit }]);
      else problems.push(problem);
    }
  }
  const assigned = new Map<string, Plain>();
  for (const [path, placed] of byPath) {
    const overlap = [...byPath].find(([other]) => other !== path && isWithin(path, other));
    if (overlap !== undefined) {
      const message = `lies within ${overlap[0]}, which ${owners(overlap[1])} sets as a whole`;
      problems.push(sourceProblem(placed[0].change, path, 'set-twice', message));
      continue;
    }
    const value = oneValue(baseline, path, placed, problems);
    if (value !== undefined) assigned.set(path, value);
  }
  return assigned;
}

function unknownPath(change: Change, edit: FieldEdit, known: readonly string[]): Problem | null {
  const { path } = edit;
  return isKnown(path, known)
    ? null
    : pathProblem(change, path, known, edit.kind === 'set' ? edit.value : null);
}

function oneValue(
  baseline: Baseline,
  path: string,
  placed: readonly Placed[],
  problems: Problem[],
): Plain | undefined {
  const [first] = placed;
  const kinds = new Set(placed.map(({ edit }) => edit.kind));
  const values = placed.flatMap(({ edit }) => (edit.kind === 'set' ? [edit.value] : []));
  if (kinds.size > 1 || new Set(values.map((value) => JSON.stringify(value))).size > 1) {
    const message = `is changed in two ways at once, by ${owners(placed)}`;
    problems.push(sourceProblem(first.change, path, 'set-twice', message));
    return undefined;
  }
  if (values.length > 0) return values[0];
  const current = currentValue(baseline, path);
  if (current === undefined) {
    const message = 'has no value to start from: the combination neither gives nor assumes it';
    problems.push(sourceProblem(first.change, path, 'no-value', message, 'set it instead'));
    return undefined;
  }
  const result = calculated(current, placed);
  if (result.ok) return result.value;
  problems.push(sourceProblem(first.change, path, 'no-arithmetic', result.message));
  return undefined;
}

/** Several factors, or several amounts, in an order of their own, so that the last digit doesn't hang on the caller's. */
function calculated(current: Plain, placed: readonly Placed[]): EachResult {
  const ordered = placed
    .map(({ edit }) => edit)
    .sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  return ordered.reduce<EachResult>(
    (sofar, edit) => {
      if (!sofar.ok || edit.kind === 'set') return sofar;
      return edit.kind === 'scale' ? eachScaled(sofar.value, edit.factor) : eachSum(sofar.value, edit.amount);
    },
    { ok: true, value: current as string | number },
  );
}

function owners(placed: readonly Placed[]): string {
  const names = [...new Set(placed.map(({ change }) => `'${change.name}'`))].sort();
  return names.join(' and ');
}
