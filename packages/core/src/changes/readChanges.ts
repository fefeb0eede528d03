/** Text of a changes file to changes, or to the list of everything that is wrong with it. */
import type { Problem } from '../combination/problem.ts';
import { type CombinationDocument, join, type Plain, readDocument } from '../reading/readDocument.ts';
import { issueProblems, problemOf, withoutMisspelt } from '../reading/readSections.ts';
import { fieldPaths } from '../reading/schema/fieldPaths.ts';
import { isKnown, pathProblem } from './assignedValues.ts';
import type { Change, FieldEdit } from './change.ts';
import { type ChangeEntry, changesFile, changesSchema } from './changesSchema.ts';

/** Changes, or everything that is wrong with their file. */
export type ReadChangesResult =
  | { readonly ok: true; readonly changes: readonly Change[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

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
 * Fields are named by path, `heads.intake.valve: 2.30 in`, or with sections nested in each other.
 */
export function readChanges(text: string, options: { readonly file?: string } = {}): ReadChangesResult {
  const read = readDocument(text, { file: options.file ?? 'changes' });
  if (!read.ok) return { ok: false, problems: read.problems.map(inOurWords) };
  const { document } = read;
  const parsed = changesFile.safeParse(withoutEmptyFields(document.data), { reportInput: true });
  if (!parsed.success) {
    const found = parsed.error.issues.flatMap((issue) => issueProblems(issue, [], document, changesSchema()));
    return { ok: false, problems: withoutMisspelt(found) };
  }
  const problems: Problem[] = [];
  const known = fieldPaths();
  const changes = parsed.data.changes.map((entry, index) =>
    changeOf(entry, `changes.${index}`, document, known, problems),
  );
  changes.forEach(({ name }, index) => {
    if (changes.findIndex((other) => other.name === name) < index) {
      const message = `is the name of two changes: '${name}'`;
      problems.push(problemOf(document, `changes.${index}.name`, 'name-twice', message));
    }
  });
  return problems.length > 0 ? { ok: false, problems: inOrder(problems) } : { ok: true, changes };
}

/** By line. */
function inOrder(problems: readonly Problem[]): readonly Problem[] {
  return [...problems].sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0));
}

function inOurWords(problem: Problem): Problem {
  if (problem.code !== 'not-a-combination') return problem;
  return {
    ...problem,
    code: 'not-changes',
    message: 'is not a list of changes: a list under changes: is expected',
  };
}

/** A field with nothing after its colon is a field left out. */
function withoutEmptyFields(data: Plain): Plain {
  if (Array.isArray(data)) return data.map(withoutEmptyFields);
  if (data === null || typeof data !== 'object') return data;
  const filled = Object.entries(data).filter(([, value]) => value !== null);
  return Object.fromEntries(filled.map(([name, value]) => [name, withoutEmptyFields(value)]));
}

function changeOf(
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
      problems.push(pathProblem(change, field.path, known));
      return [];
    }
    if (written.findIndex(({ path }) => path === field.path) < index) {
      problems.push(problemOf(document, field.at, 'set-twice', 'is changed twice by one change'));
      return [];
    }
    const edit = editOf(field);
    if (typeof edit !== 'string') return [edit];
    problems.push(problemOf(document, field.at, 'wrong-kind', edit));
    return [];
  });
  return { ...change, edits };
}

/** Nested sections flattened into paths; a list is a value. */
function writtenFields(
  kind: Kind,
  path: string,
  fields: Readonly<Record<string, unknown>>,
  at: string,
): readonly Written[] {
  return Object.entries(fields).flatMap(([name, value]) => {
    const here = { kind, path: join(path, name), value, at: join(at, name) };
    return value !== null && typeof value === 'object' && !Array.isArray(value)
      ? writtenFields(kind, here.path, value as Record<string, unknown>, here.at)
      : [here];
  });
}

/** The edit, or what is wrong with its value. */
function editOf({ kind, path, value }: Written): FieldEdit | string {
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
  return typeof value === 'string' ? `'${value.slice(0, 40)}'` : String(value);
}
