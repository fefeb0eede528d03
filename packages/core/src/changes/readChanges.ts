/** Text of a changes file to changes, or to the list of everything that is wrong with it. */
import { isBySpeed } from '../base/quantityArithmetic.ts';
import type { Result } from '../base/result.ts';
import type { Problem } from '../combination/problem.ts';
import { type CombinationDocument, join, type Plain } from '../reading/combinationDocument.ts';
import { fieldNames } from '../reading/fieldNames.ts';
import { inFileOrder } from '../reading/inFileOrder.ts';
import { issueProblems } from '../reading/issueProblems.ts';
import { problemOf } from '../reading/problemOf.ts';
import { readDocument } from '../reading/readDocument.ts';
import { withoutMisspelt } from '../reading/readSections.ts';
import { fieldPaths } from '../reading/schema/fieldPaths.ts';
import { type FieldShape, fieldShape } from '../reading/schema/fieldShape.ts';
import type { Change, FieldEdit } from './change.ts';
import type { ChangeEntry } from './changeEntry.ts';
import { changeEntry, changesFile, MOST_CHANGES } from './changesFile.ts';
import { isKnown, pathProblem } from './pathProblem.ts';

const KINDS = ['set', 'scale', 'add'] as const;
type Kind = (typeof KINDS)[number];

interface Written {
  readonly kind: Kind;
  readonly path: string;
  readonly value: unknown;
  /** Where it stands in the file. */
  readonly at: string;
}

/**
 * Reads YAML (or JSON). Checks the form and the paths; whether a value suits its field shows when the change is applied.
 * Fields are named by path, `heads.intake.valve: 2.30 in`, or with sections nested in each other. Where some changes are
 * wrong, `partial` holds those that are sound by themselves.
 *
 * @example
 * ```ts
 * const read = readChanges('changes: [{ name: longer header, set: { exhaust.primary.length: 34 in } }]');
 * if (read.ok) console.log(read.value[0].name);
 * ```
 */
export function readChanges(
  text: string,
  options: { readonly file?: string } = {},
): Result<readonly Change[], Problem, readonly Change[]> {
  const read = readDocument(text, { file: options.file ?? 'changes' });
  const slips = read.ok ? [] : read.problems.map(inOurWords);
  const document = read.ok ? read.value : read.partial;
  if (document === undefined) return { ok: false, problems: slips };
  const shape = fieldShape(changesFile);
  const data = withoutEmptyFields(document.data, shape);
  const parsed = changesFile.safeParse(data, { reportInput: true });
  const problems: Problem[] = [
    ...slips,
    ...withoutMisspelt(
      (parsed.error?.issues ?? []).flatMap((issue) => issueProblems(issue, [], document, shape)),
    ),
  ];
  const known = fieldPaths();
  const entries = parsed.data?.changes ?? soundEntries(data);
  const sound = entries.flatMap((entry, index): Change[] => {
    if (entry === null) return [];
    const before = problems.length;
    const change = changeOf(entry, `changes.${index}`, document, known, problems);
    return problems.length === before ? [change] : [];
  });
  const names = entries.map((entry) => entry?.name);
  names.forEach((name, index) => {
    if (name !== undefined && names.indexOf(name) < index) {
      const message = `is the name of two changes: '${name}'`;
      problems.push(problemOf(document, `changes.${index}.name`, 'name-twice', message));
    }
  });
  return problems.length > 0
    ? { ok: false, problems: inFileOrder(problems), partial: sound }
    : { ok: true, value: sound };
}

/**
 * The data without fields that have nothing after their colon: a field left out. Those that are not fields of a changes file stay
 * to be refused, and so do those that a change sets, since a change that sets nothing is a slip.
 */
function withoutEmptyFields(data: Plain, shape: FieldShape): Plain {
  const filled = (fields: Plain, names: readonly string[]): Plain =>
    isFields(fields)
      ? Object.fromEntries(
          Object.entries(fields).filter(([name, value]) => value !== null || !names.includes(name)),
        )
      : fields;
  const file = filled(data, fieldNames([], shape));
  if (!isFields(file) || !Array.isArray(file['changes'])) return file;
  const names = fieldNames(['changes', 0], shape);
  return { ...file, changes: file['changes'].map((entry) => filled(entry, names)) };
}

function isFields(value: Plain): value is { readonly [name: string]: Plain } {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

function withoutUnknown(entry: unknown): unknown {
  if (entry === null || typeof entry !== 'object' || Array.isArray(entry)) return entry;
  const names = fieldNames([], fieldShape(changeEntry));
  return Object.fromEntries(Object.entries(entry).filter(([name]) => names.includes(name)));
}

/** The entries of a file whose other entries, or other fields, are not as they should be; null for those that are not either. */
function soundEntries(data: unknown): readonly (ChangeEntry | null)[] {
  const list = data !== null && typeof data === 'object' && 'changes' in data ? data.changes : null;
  if (!Array.isArray(list)) return [];
  return list
    .slice(0, MOST_CHANGES)
    .map((entry) => changeEntry.safeParse(withoutUnknown(entry)).data ?? null);
}

function inOurWords(problem: Problem): Problem {
  if (problem.code !== 'not-a-combination') return problem;
  return {
    ...problem,
    code: 'not-changes',
    message: 'is not a list of changes',
    hint: 'begin with a line changes: and write the list below it',
  };
}

/** A change as written, its fields checked against those that there are; what is wrong goes among `problems`. */
export function changeOf(
  entry: ChangeEntry,
  at: string,
  document: CombinationDocument,
  known: readonly string[],
  problems: Problem[],
): Change {
  const written = KINDS.flatMap((kind) => writtenFields(kind, '', entry[kind] ?? {}, join(at, kind)));
  const positions = Object.fromEntries(
    [{ path: '', at }, ...written].flatMap((field) => {
      const place = document.positions[field.at];
      return place === undefined ? [] : [[field.path, place]];
    }),
  );
  const change = {
    name: entry.name,
    cost: entry.cost ?? null,
    hours: entry.hours ?? null,
    reversible: entry.reversible ?? true,
    insteadOf: entry.insteadOf ?? null,
    source: { file: document.file, positions },
  };
  if (written.length === 0) {
    const message = `'${entry.name}' changes nothing: it needs set, scale or add`;
    problems.push(problemOf(document, at, 'no-edits', message));
  }
  const edits = written.flatMap((field, index) => {
    if (!isKnown(field.path, known)) {
      problems.push(pathProblem(change, field.path, known, field.value));
      return [];
    }
    if (written.findIndex(({ path }) => path === field.path) < index) {
      problems.push(problemOf(document, field.at, 'set-twice', 'is changed twice by one change'));
      return [];
    }
    const edit = editOf(field);
    if (typeof edit !== 'string') return [edit];
    problems.push(problemOf(document, field.at, field.value === null ? 'value-missing' : 'wrong-kind', edit));
    return [];
  });
  return { ...change, edits };
}

/** Nested sections flattened into paths; a list and a table by speed are values. */
function writtenFields(
  kind: Kind,
  path: string,
  fields: Readonly<Record<string, unknown>>,
  at: string,
): readonly Written[] {
  return Object.entries(fields).flatMap(([name, value]) => {
    const here = { kind, path: join(path, name), value, at: join(at, name) };
    return value !== null && typeof value === 'object' && !Array.isArray(value) && !isBySpeed(value)
      ? writtenFields(kind, here.path, value as Record<string, unknown>, here.at)
      : [here];
  });
}

/** The edit, or what is wrong with its value. */
function editOf({ kind, path, value }: Written): FieldEdit | string {
  if (value === null) return 'has no value';
  if (kind === 'set') return { kind, path, value: value as Plain };
  if (kind === 'scale') {
    return typeof value === 'number' && value > 0
      ? { kind, path, factor: value }
      : `needs a plain number above 0 to scale by, got ${shown(value)}`;
  }
  return typeof value === 'number' || typeof value === 'string'
    ? { kind, path, amount: value }
    : `needs an amount to add, such as 2 deg, got ${shown(value)}`;
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'fields';
  return typeof value === 'string' ? `'${value.slice(0, 40)}'` : String(value);
}
