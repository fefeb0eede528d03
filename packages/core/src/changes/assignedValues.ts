/** The edits of some changes as one value a field. */
import { type EachResult, eachScaled, eachSum } from '../base/quantityArithmetic.ts';
import type { MisspeltProblem, PlainCode, PlainProblem, Problem } from '../combination/problem.ts';
import type { Plain } from '../reading/combinationDocument.ts';
import { FIELDS, isField } from '../reading/fields/fieldTable.ts';
import { isWithin } from '../reading/fields/isWithin.ts';
import { notForecast, notForecastMessage } from '../reading/notForecast.ts';
import { newFieldFor } from '../reading/oldNames.ts';
import { fieldPaths, nearestPaths } from '../reading/schema/fieldPaths.ts';
import { valueAt } from '../reading/valueAt.ts';
import type { Baseline } from './baseline.ts';
import type { Change, FieldEdit } from './change.ts';

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

/** Whether a combination file has such a field; one of an entry of a list is `burn.spark.0.advance`. */
export function isKnown(path: string, known: readonly string[]): boolean {
  const withoutNumbers = path.replaceAll(/\.\d+(?=\.|$)/gu, '');
  if (known.includes(path)) return true;
  return path !== withoutNumbers && known.some((field) => isWithin(withoutNumbers, field));
}

/** An unknown path with the nearest there are, or with what it is called now. */
export function pathProblem(
  change: Pick<Change, 'name' | 'source'>,
  path: string,
  known: readonly string[],
  value: unknown,
): Problem {
  const now = newFieldFor(path, value);
  if (now !== null) return misspeltPath(change, path, 'has another name now', `write ${now}`, null);
  const matter = notForecast(path);
  if (matter !== null) {
    const { message, hint } = notForecastMessage(matter);
    return misspeltPath(change, path, message, hint, null);
  }
  const near = nearestPaths(path, known);
  const hint = near.length === 0 ? 'valvetide schema lists the fields' : `did you mean ${near.join(' or ')}?`;
  return misspeltPath(change, path, 'is not a field of a combination', hint, near[0] ?? null);
}

function misspeltPath(
  change: Pick<Change, 'name' | 'source'>,
  path: string,
  message: string,
  hint: string,
  nearest: string | null,
): MisspeltProblem {
  return { ...sourceProblem(change, path, 'invalid', message, hint), code: 'unknown-path', nearest };
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

/** What a field has before any change, as it would stand in a file: stated, assumed or following from others. */
export function currentValue(baseline: Baseline, path: string): Plain | undefined {
  const assumed = baseline.combination.assumed.find((entry) => entry.path === path);
  return (
    valueAt(baseline.document.data, path) ??
    valueAt(baseline.stated.data, path) ??
    (assumed === undefined ? undefined : `${assumed.value} ${assumed.unit}`) ??
    (isField(path) ? FIELDS[path].follows?.(baseline.combination) : undefined)
  );
}

function owners(placed: readonly Placed[]): string {
  const names = [...new Set(placed.map(({ change }) => `'${change.name}'`))].sort();
  return names.join(' and ');
}

/** A problem at an edit of a change, placed where the edit stands in its file. */
export function sourceProblem(
  { name, source }: Pick<Change, 'name' | 'source'>,
  path: string,
  code: PlainCode,
  message: string,
  hint: string | null = null,
): PlainProblem {
  const place = source?.positions[path] ?? source?.positions[''] ?? null;
  return {
    file: source?.file ?? `change '${name}'`,
    line: place?.line ?? null,
    column: place?.column ?? null,
    path,
    code,
    message,
    hint,
  };
}
