/** Text of a shelf file to a shelf, or to the list of everything that is wrong with it. */
import { type ArithmeticResult, scaled, sum } from '../base/quantityArithmetic.ts';
import type { Result } from '../base/result.ts';
import { splitNumber } from '../base/units.ts';
import type { Change } from '../changes/change.ts';
import { isKnown, pathProblem } from '../changes/pathProblem.ts';
import { changeOf } from '../changes/readChanges.ts';
import type { Problem } from '../combination/problem.ts';
import { type CombinationDocument, join } from '../reading/combinationDocument.ts';
import { inFileOrder } from '../reading/inFileOrder.ts';
import { issueProblems } from '../reading/issueProblems.ts';
import { problemOf } from '../reading/problemOf.ts';
import { readDocument } from '../reading/readDocument.ts';
import { withoutMisspelt } from '../reading/readSections.ts';
import { fieldPaths } from '../reading/schema/fieldPaths.ts';
import { fieldShape } from '../reading/schema/fieldShape.ts';
import type { Shelf, ShelfAim, ShelfGroup, ShelfLimits } from './shelf.ts';
import { type RangeEntry, type ShelfFile, shelfFile } from './shelfFile.ts';

/** Values of one range at most. */
const MOST_VALUES = 40;

/**
 * Reads YAML (or JSON). Checks the form and the paths; whether a part suits the engine shows when it is applied.
 *
 * @example
 * ```ts
 * const read = readShelf('ranges: [{ name: Primary, field: exhaust.primary.length, from: 26 in, to: 36 in, step: 2 in }]');
 * if (read.ok) console.log(read.value.groups[0].alternatives.length);
 * ```
 */
export function readShelf(text: string, options: { readonly file?: string } = {}): Result<Shelf, Problem> {
  const read = readDocument(text, { file: options.file ?? 'shelf' });
  if (!read.ok) return { ok: false, problems: read.problems.map(inOurWords) };
  const document = read.value;
  const shape = fieldShape(shelfFile);
  const parsed = shelfFile.safeParse(document.data, { reportInput: true });
  if (!parsed.success) {
    const found = parsed.error.issues.flatMap((issue) => issueProblems(issue, [], document, shape));
    return { ok: false, problems: inFileOrder(withoutMisspelt(found)) };
  }
  const problems: Problem[] = [];
  const known = fieldPaths();
  const groups = [
    ...partsOf(parsed.data, document, known, problems),
    ...(parsed.data.ranges ?? []).map((range, i) =>
      sizesOf(range, join('ranges', String(i)), document, known, problems),
    ),
  ];
  if (groups.length === 0) {
    const message = 'has nothing on it: it needs groups or ranges';
    problems.push(problemOf(document, '', 'value-missing', message));
  }
  checkNames(groups, document, problems);
  const limits = limitsOf(parsed.data, document, known, problems);
  const aims = aimsOf(parsed.data, document, problems);
  return problems.length > 0
    ? { ok: false, problems: inFileOrder(problems) }
    : { ok: true, value: { groups, limits, aims } };
}

function inOurWords(problem: Problem): Problem {
  return problem.code === 'not-a-combination'
    ? { ...problem, code: 'wrong-kind', message: 'is not a shelf: groups: and ranges: are expected' }
    : problem;
}

function partsOf(
  { groups = [] }: ShelfFile,
  document: CombinationDocument,
  known: readonly string[],
  problems: Problem[],
): readonly ShelfGroup[] {
  return groups.map(({ name, mayStay = true, choices }, i) => ({
    name,
    mayStay,
    field: null,
    alternatives: choices.map((entry, c) =>
      changeOf(entry, `groups.${i}.choices.${c}`, document, known, problems),
    ),
  }));
}

function sizesOf(
  range: RangeEntry,
  at: string,
  document: CombinationDocument,
  known: readonly string[],
  problems: Problem[],
): ShelfGroup {
  const { name, field, mayStay = true, cost = null, hours = null } = range;
  // Without a word of either it is a setting; where one is stated, the other is not known.
  const unsaid = cost === null && hours === null ? 0 : null;
  const change = (value: number | string): Change => ({
    name: `${name} ${value}`,
    edits: [{ kind: 'set', path: field, value }],
    cost: cost ?? unsaid,
    hours: hours ?? unsaid,
    reversible: true,
    insteadOf: null,
    source: { file: document.file, positions: placesOf(document, at, field) },
  });
  if (!isKnown(field, known)) problems.push(pathProblem(change(''), field, known, null));
  const values = valuesOf(range);
  if (typeof values === 'string') problems.push(problemOf(document, at, 'wrong-kind', values));
  const alternatives = typeof values === 'string' ? [] : values.map(change);
  return { name, mayStay, field, alternatives };
}

function placesOf(
  document: CombinationDocument,
  at: string,
  field: string,
): NonNullable<Change['source']>['positions'] {
  const place = document.positions[join(at, 'field')] ?? document.positions[at];
  return place === undefined ? {} : { '': place, [field]: place };
}

/** The values of a range in the unit of its first, or what is wrong with it. */
function valuesOf({ from, to, step }: RangeEntry): readonly (number | string)[] | string {
  const first = inUnitOf(from, from);
  const [last, by] = [inUnitOf(from, to), inUnitOf(from, step)];
  if (first === null) return `can't begin at '${from}': a number, with its unit where it has one`;
  if (last === null || by === null) return `needs from, to and step in units of one kind, such as 26 in`;
  if (!(by > 0 && last >= first)) return 'needs a step above nothing, and to at from or above it';
  const count = Math.floor((last - first) / by + 1e-9) + 1;
  if (count > MOST_VALUES) return `makes ${count} values, and ${MOST_VALUES} at most are tried`;
  return Array.from({ length: count }, (_, i) => {
    const more = scaled(step, i);
    const value: ArithmeticResult = more.ok ? sum(from, more.value) : more;
    return value.ok ? value.value : from;
  });
}

/** A value as a number in the unit of another; null where they don't go together. */
export function inUnitOf(model: unknown, value: unknown): number | null {
  const none = typeof model === 'string' ? scaled(model, 0) : { ok: true as const, value: 0 };
  const inIt = none.ok ? sum(none.value, value) : none;
  if (!inIt.ok) return null;
  return typeof inIt.value === 'number' ? inIt.value : (splitNumber(inIt.value)?.number ?? null);
}

/** Every alternative must be told from every other by its name. */
function checkNames(groups: readonly ShelfGroup[], document: CombinationDocument, problems: Problem[]): void {
  const seen = new Set<string>();
  for (const name of groups.flatMap((group) => [group.name, ...group.alternatives.map((one) => one.name)])) {
    if (seen.has(name))
      problems.push(problemOf(document, '', 'name-twice', `has two things of one name: '${name}'`));
    seen.add(name);
  }
}

function limitsOf(
  { limits }: ShelfFile,
  document: CombinationDocument,
  known: readonly string[],
  problems: Problem[],
): ShelfLimits {
  const { cost = null, hours = null, largest = {} } = limits ?? {};
  for (const path of Object.keys(largest))
    if (!isKnown(path, known))
      problems.push(
        pathProblem(
          { name: 'limits', source: { file: document.file, positions: placesOf(document, 'limits', path) } },
          path,
          known,
          null,
        ),
      );
  return { cost, hours, largest };
}

function aimsOf(
  { aims = [] }: ShelfFile,
  document: CombinationDocument,
  problems: Problem[],
): readonly ShelfAim[] {
  return aims.map(({ from, to, of = 'power', weighting = 'speed', weight = 1 }, i) => {
    if (!(to >= from))
      problems.push(problemOf(document, `aims.${i}.to`, 'wrong-kind', 'must not be below from'));
    return { band: { fromRpm: Math.round(from), toRpm: Math.round(to) }, of, weighting, weight };
  });
}
