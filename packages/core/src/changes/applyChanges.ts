/** Changes applied to a baseline whose estimates are pinned, so that each alters what it names and nothing else. */

import type { Result } from '../base/result.ts';
import type { Assumed, Combination, Warning } from '../combination/combination.ts';
import { benchRemark, otherBench } from '../combination/otherBench.ts';
import type { Problem } from '../combination/problem.ts';
import { sameSheetRemark } from '../combination/sameSheet.ts';
import { SIDES } from '../combination/sides.ts';
import type { CombinationDocument, Plain } from '../reading/combinationDocument.ts';
import { editDocument } from '../reading/editDocument.ts';
import { fieldOf } from '../reading/fieldOf.ts';
import { isWithin } from '../reading/fields/isWithin.ts';
import { resolveDocument } from '../reading/resolveDocument.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { valueAt } from '../reading/valueAt.ts';
import { assignedValues } from './assignedValues.ts';
import { type Baseline, metres, sheetsOf } from './baseline.ts';
import type { Change } from './change.ts';
import { currentValue } from './currentValue.ts';
import { type Entailed, entailed } from './entailed.ts';
import { keepUntouched } from './keepUntouched.ts';
import { isSameEngine } from './sameEngine.ts';
import { sourceProblem } from './sourceProblem.ts';

/** Where sheets come from, and what to do with a change that alters nothing. */
export interface ApplyOptions {
  /** Text of the sheets that changes name; the baseline brings its own. */
  readonly sheet?: SheetSource | undefined;
  /** A change without any effect is refused, since it is a slip; a sweep passes through the baseline and allows it. */
  readonly effectless?: 'refuse' | 'allow';
}

/**
 * The same combination with changes applied, or everything that is wrong with them. The order of the changes is of no account.
 *
 * @example
 * ```ts
 * const changed = applyChanges(baseline, [change]);
 * if (changed.ok) console.log(changed.value.chamber.compressionRatio);
 * ```
 */
export function applyChanges(
  baseline: Baseline,
  changes: readonly Change[],
  options: ApplyOptions = {},
): Result<Combination, Problem> {
  const problems: Problem[] = [];
  const assigned = assignedValues(baseline, changes, problems);
  if (problems.length > 0) return { ok: false, problems };
  const paths = [...assigned.keys()].sort();
  const gone = entailed(assigned, baseline.combination, (path) => valueAt(baseline.document.data, path));
  const edited = (document: CombinationDocument): CombinationDocument =>
    paths.reduce((made, path) => editDocument(made, path, assigned.get(path) ?? null), document);
  const releases = [...gone.releases, ...narrowThroats(baseline, assigned)];
  const document = edited(withoutEntailed(baseline, { ...gone, releases }, paths));
  const resolved = resolveDocument(document, {
    sheet: sheetsOf(baseline.sheets, options.sheet),
    written: edited(baseline.stated),
  });
  if (!resolved.ok)
    return { ok: false, problems: resolved.problems.map((problem) => relocated(problem, changes)) };
  const combination = keepUntouched(baseline.combination, resolved.value, paths);
  if (options.effectless !== 'allow') {
    const idle = changes.filter((change) => !hasEffect(baseline, changes, change, combination, options));
    if (idle.length > 0) return { ok: false, problems: idle.map((change) => effectless(baseline, change)) };
  }
  return { ok: true, value: named(baseline, combination, document, changes) };
}

/** The pinned document without what the edited fields contradict; estimates go, statements of the file stay where they can. */
function withoutEntailed(
  baseline: Baseline,
  { drops, releases, holds }: Entailed,
  paths: readonly string[],
): CombinationDocument {
  const isSet = (path: string): boolean => paths.some((field) => isWithin(path, field));
  const estimates = baseline.combination.assumed
    .map(({ path }) => path)
    .filter((path) => releases.some((field) => isWithin(path, field)) && !isSet(path));
  const left = [...drops, ...estimates].reduce(
    (document, path) =>
      valueAt(document.data, path) === undefined ? document : editDocument(document, path, null),
    baseline.document,
  );
  return holds.reduce(
    (document, path) => editDocument(document, path, currentValue(baseline, path) ?? null),
    left,
  );
}

/** Throats that would not fit under the new valves: as estimates they give way, and the port's estimate with them. */
function narrowThroats(baseline: Baseline, assigned: ReadonlyMap<string, Plain>): readonly FieldPath[] {
  return SIDES.flatMap((side): readonly FieldPath[] => {
    const valve = metres(assigned.get(`heads.${side}.valve`));
    const path: FieldPath = `heads.${side}.throat`;
    const throat = metres(fieldOf(baseline.document, path));
    return valve !== null && throat !== null && throat >= valve ? [path] : [];
  });
}

function hasEffect(
  baseline: Baseline,
  changes: readonly Change[],
  change: Change,
  together: Combination,
  options: ApplyOptions,
): boolean {
  if (changes.length === 1) return !isSameEngine(together, baseline.combination);
  const alone = applyChanges(baseline, [change], { ...options, effectless: 'allow' });
  // Sound only beside another change: then it does something there.
  return !alone.ok || !isSameEngine(alone.value, baseline.combination);
}

function effectless(baseline: Baseline, change: Change): Problem {
  const fields = change.edits.map(({ path }) => path);
  const message = `has no effect: with ${fields.join(', ')} as '${change.name}' has it, the engine is the same`;
  return sourceProblem(change, fields[0] ?? '', 'no-effect', message, hintFor(baseline, fields));
}

/** Volumes that only count beside a chamber volume are the usual reason. */
function hintFor(baseline: Baseline, fields: readonly string[]): string | null {
  const volumes = fields.some((path) => isWithin(path, 'chamber'));
  return volumes && fieldOf(baseline.document, 'chamber.volume') === undefined
    ? 'the combination gives a compression ratio and no volumes'
    : 'it has this value already, or another field decides';
}

/** A problem of the changed combination, told where the change that made it stands. */
function relocated(problem: Problem, changes: readonly Change[]): Problem {
  for (const change of changes) {
    const edit = change.edits.find(
      ({ path }) => isWithin(problem.path, path) || (problem.path !== '' && isWithin(path, problem.path)),
    );
    if (edit === undefined) continue;
    const { file, line, column } = sourceProblem(change, edit.path, 'invalid', '');
    // Without a line the place is the change itself.
    const whose = line === null ? '' : `, with '${change.name}'`;
    return { ...problem, file, line, column, message: `${problem.message}${whose}` };
  }
  const names = changes.map(({ name }) => `'${name}'`).join(' and ');
  return { ...problem, line: null, column: null, message: `${problem.message}, with ${names}` };
}

/** The combination by its name and its changes, with what it assumes and what is doubtful about it. */
function named(
  baseline: Baseline,
  combination: Combination,
  document: CombinationDocument,
  changes: readonly Change[],
): Combination {
  const before = baseline.combination;
  const made = new Map(combination.assumed.map((entry) => [entry.path, entry]));
  // An estimate of the baseline still stands where its pinned value does, unless it was made anew.
  const kept = before.assumed.filter(
    ({ path }) =>
      made.has(path) ||
      (valueAt(document.data, path) === valueAt(baseline.document.data, path) && !wasSet(changes, path)),
  );
  const fresh = combination.assumed.filter(({ path }) => !kept.some((entry) => entry.path === path));
  const assumed: readonly Assumed[] = [...kept.map((entry) => made.get(entry.path) ?? entry), ...fresh];
  const still = before.warnings.filter(
    ({ path }) => path !== '' && kept.some((entry) => entry.path === path),
  );
  const warnings: readonly Warning[] = [
    ...still.filter(
      (old) => !combination.warnings.some((now) => now.code === old.code && now.path === old.path),
    ),
    // A pinned estimate that nothing needs any more was never the builder's to take out.
    ...combination.warnings.filter(
      ({ code, path }) => !(code === 'field-unused' && before.assumed.some((entry) => entry.path === path)),
    ),
  ];
  const name = [before.name, ...changes.map((change) => change.name)].join(' + ');
  const flowed = flowWarnings(before, combination, changes.map((change) => change.name).join(' + '));
  const changed = { ...combination, name, assumed, warnings: [...warnings, ...flowed] };
  // What was heard was heard of the engine before the changes.
  return combination.burn.heard.length > 0 ? { ...changed, heardOn: before.heardOn ?? before } : changed;
}

/** What is doubtful about the flow of a changed engine beside that of the engine before. */
function flowWarnings(before: Combination, after: Combination, name: string): readonly Warning[] {
  const differs = otherBench(before, after);
  const bench = differs === null ? null : benchRemark(name, differs);
  const sheet = sameSheetRemark(before, after);
  return [
    ...(bench === null ? [] : [{ code: 'other-bench', path: 'heads.bench', message: bench } as const]),
    ...(sheet === null ? [] : [{ code: 'same-sheet', path: 'heads.flow', message: sheet } as const]),
  ];
}

function wasSet(changes: readonly Change[], path: string): boolean {
  return changes.some(({ edits }) => edits.some((edit) => isWithin(path, edit.path)));
}
