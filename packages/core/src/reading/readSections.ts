/** A document's sections through their schemas: every complaint as a problem, every sound section as values. */
import type * as z from 'zod/mini';
import type {
  MisspeltCode,
  MisspeltProblem,
  PlainCode,
  PlainProblem,
  Problem,
} from '../combination/problem.ts';
import { nearestName } from './nearestName.ts';
import { notForecast, notForecastMessage } from './notForecast.ts';
import { newFieldFor, newWordFor } from './oldNames.ts';
import { type CombinationDocument, join } from './readDocument.ts';
import { type PartialFile, SECTIONS } from './schema/combinationFile.ts';
import { type FieldShape, fileShape } from './schema/fieldShape.ts';
import { wordForField, wordForValue } from './tradeWords.ts';
import { valueAt } from './valueAt.ts';

export interface SectionsResult {
  /** The sections that could be read. */
  readonly file: PartialFile;
  readonly problems: readonly Problem[];
}

/** Reads every section on its own, so that a slip in one doesn't hide those in the others. */
export function readSections(document: CombinationDocument): SectionsResult {
  const problems: Problem[] = [];
  const file: Record<string, unknown> = {};
  const names = Object.keys(SECTIONS);
  const unknown = Object.keys(document.data).filter((name) => !names.includes(name));
  problems.push(...unknownFields(document, [], unknown, names));
  for (const [name, schema] of Object.entries(SECTIONS)) {
    const written = Object.hasOwn(document.data, name) ? document.data[name] : undefined;
    if (written === undefined || written === null) {
      if (name === 'engine')
        problems.push(
          problemOf(document, 'engine', 'missing', 'is missing: bore, stroke and cylinders at least'),
        );
      continue;
    }
    const result = schema.safeParse(withoutEmpty(written, [name]), { reportInput: true });
    if (result.success) file[name] = result.data;
    else for (const issue of result.error.issues) problems.push(...issueProblems(issue, [name], document));
  }
  return { file, problems: withoutMisspelt(problems) };
}

/** Without those that only repeat that a field is misspelt. */
export function withoutMisspelt(problems: readonly Problem[]): readonly Problem[] {
  return problems.filter((problem) => !isMisspelt(problem, problems));
}

/** A field is not missing when it stands there misspelt: one slip, one problem. */
function isMisspelt(missing: Problem, problems: readonly Problem[]): boolean {
  if (missing.code !== 'missing') return false;
  const at = missing.path.lastIndexOf('.');
  return problems.some(
    (other) =>
      other.code === 'unknown-field' &&
      other.path.lastIndexOf('.') === at &&
      other.path.slice(0, at + 1) === missing.path.slice(0, at + 1) &&
      other.nearest === missing.path.slice(at + 1),
  );
}

/**
 * The value without fields that have nothing after their colon: a field left out. One that the schema doesn't know is kept, so
 * that it is refused like any other unknown field.
 */
function withoutEmpty(
  value: unknown,
  path: readonly PropertyKey[],
  schema: FieldShape = fileShape(),
): unknown {
  if (Array.isArray(value)) return value.map((inner, index) => withoutEmpty(inner, [...path, index], schema));
  if (value === null || typeof value !== 'object') return value;
  const fields = Object.entries(value);
  const known = fields.some(([, inner]) => inner === null) ? fieldNames(path, schema) : [];
  const kept = fields.filter(([name, inner]) => inner !== null || !known.includes(name));
  return Object.fromEntries(
    kept.map(([name, inner]) => [name, withoutEmpty(inner, [...path, name], schema)]),
  );
}

type Issue = z.core.$ZodIssue;

/** A complaint of a schema as problems of the document; `schema` says which fields there are. */
export function issueProblems(
  issue: Issue,
  base: readonly PropertyKey[],
  document: CombinationDocument,
  schema: FieldShape = fileShape(),
): readonly Problem[] {
  const path = [...base, ...issue.path];
  const field = path.map(String).join('.');
  if (issue.code === 'unrecognized_keys') {
    const names = fieldNames(path, schema);
    return unknownFields(document, path, issue.keys, names);
  }
  if (issue.code === 'invalid_union') {
    const branch = likeliestBranch(issue.errors);
    if (branch !== null) return branch.flatMap((inner) => issueProblems(inner, path, document, schema));
    const trade = wordForValue(field, issue.input);
    if (trade !== null) return [problemOf(document, field, 'wrong-kind', issue.message, trade)];
    const now = newWordFor(field, issue.input);
    if (now !== null)
      return [misspeltAt(document, field, 'unknown-word', 'has other words now', { hint: `write ${now}` })];
    return [problemOf(document, field, 'wrong-kind', unionMessage(issue), nearestWord(issue))];
  }
  if (issue.code === 'invalid_value') {
    const values = issue.values.map(String);
    const nearest = typeof issue.input === 'string' ? nearestName(issue.input, values) : null;
    const message = `must be one of ${values.join(', ')}; got ${shown(issue.input)}`;
    const hint = nearest === null ? null : `did you mean ${nearest}?`;
    const trade = wordForValue(field, issue.input);
    return [misspeltAt(document, field, 'unknown-word', message, { hint: trade ?? hint, nearest })];
  }
  const { code, message, hint } = wording(issue, path);
  return [problemOf(document, field, code, message, hint ?? wordForValue(field, issue.input))];
}

/** The kinds that a choice takes, where it has no message of its own. */
function unionMessage(issue: Issue & { code: 'invalid_union' }): string {
  const kinds = issue.errors.flatMap((branch) =>
    branch.flatMap((inner) => (inner.code === 'invalid_type' ? kindName(inner.expected) : [])),
  );
  return issue.message === 'Invalid input' && kinds.length > 0
    ? `needs ${[...new Set(kinds)].join(' or ')}, got ${shown(issue.input)}`
    : issue.message;
}

/** The word of a choice that was probably meant, as a hint; null where none is near. */
function nearestWord(issue: Issue & { code: 'invalid_union' }): string | null {
  if (typeof issue.input !== 'string') return null;
  const words = issue.errors.flatMap((branch) =>
    branch.flatMap((inner) => (inner.code === 'invalid_value' ? inner.values.map(String) : [])),
  );
  const nearest = nearestName(issue.input, words);
  return nearest === null ? null : `did you mean ${nearest}?`;
}

/** The branch of a choice whose outer kind fits what was written; null where none does. */
function likeliestBranch(branches: readonly (readonly Issue[])[]): readonly Issue[] | null {
  const fitting = branches.filter((issues) =>
    issues.every((issue) => issue.path.length > 0 || !isKindIssue(issue)),
  );
  return fitting.length > 0 ? fitting[0] : null;
}

function isKindIssue(issue: Issue): boolean {
  return issue.code === 'invalid_type' || issue.code === 'invalid_value' || issue.code === 'invalid_format';
}

function wording(
  issue: Issue,
  path: readonly PropertyKey[],
): { code: PlainCode; message: string; hint: string | null } {
  if (issue.code === 'custom') {
    const { code, hint } = (issue.params ?? {}) as { code?: PlainCode; hint?: string | null };
    return { code: code ?? 'invalid', message: issue.message, hint: hint ?? null };
  }
  if (issue.code === 'invalid_type') {
    if (issue.input === undefined) return { code: 'missing', message: 'is missing', hint: null };
    if (issue.message.startsWith('needs ')) {
      return {
        code: typeof issue.input === 'number' ? 'unit-missing' : 'wrong-kind',
        message: issue.message,
        hint: null,
      };
    }
    return {
      code: 'wrong-kind',
      message: `needs ${kindName(issue.expected)}, got ${shown(issue.input)}`,
      hint: null,
    };
  }
  if (issue.code === 'too_small' || issue.code === 'too_big') return limitWording(issue, path);
  return { code: 'wrong-kind', message: issue.message, hint: null };
}

function limitWording(
  issue: Issue & { code: 'too_small' | 'too_big' },
  path: readonly PropertyKey[],
): {
  code: PlainCode;
  message: string;
  hint: string | null;
} {
  const bound = issue.code === 'too_small' ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
  const length = Array.isArray(issue.input) || typeof issue.input === 'string';
  if (issue.input === '') return { code: 'out-of-range', message: 'is empty', hint: null };
  if (length) {
    const one = bound === 'at least 1';
    const noun = typeof issue.input === 'string' ? (one ? 'letter' : 'letters') : one ? 'entry' : 'entries';
    return { code: 'out-of-range', message: `must have ${bound} ${noun}`, hint: null };
  }
  return {
    code: 'out-of-range',
    message: `is impossible: ${shown(issue.input)} must be ${bound}`,
    hint: typeof issue.input === 'number' ? mixtureHint(issue.input, path) : null,
  };
}

/** 12.9 is no lambda and a usual air-fuel ratio, 0.87 is no ratio and no difference and a usual lambda. */
function mixtureHint(value: number, path: readonly PropertyKey[]): string | null {
  if (path.includes('lambda') && value >= 5) return `an air-fuel ratio? write airFuelRatio: ${value}`;
  if (!(value > 0.5 && value < 1.6)) return null;
  if (path.includes('airFuelRatio')) return `a lambda? write lambda: ${value}`;
  if (path.includes('differences')) return 'a lambda? write what the cylinder has beyond mixture.lambda';
  return null;
}

function kindName(expected: string): string {
  if (expected === 'object' || expected === 'record') return 'fields of its own';
  if (expected === 'array') return 'a list';
  if (expected === 'boolean') return 'true or false';
  if (expected === 'int') return 'a whole number';
  return expected === 'number' ? 'a plain number' : 'a text';
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (value === null) return 'nothing';
  if (typeof value === 'object') return 'fields';
  const text = typeof value === 'string' ? `'${value}'` : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** Unknown fields of one section told singly; of many, that there are more. */
const MOST_UNKNOWN = 20;

function unknownFields(
  document: CombinationDocument,
  path: readonly PropertyKey[],
  unknown: readonly string[],
  names: readonly string[],
): readonly Problem[] {
  const told = unknown.slice(0, MOST_UNKNOWN).map((name) => unknownField(document, path, name, names));
  if (unknown.length <= MOST_UNKNOWN) return told;
  const message = `has ${unknown.length - MOST_UNKNOWN} more fields that are not fields of this file`;
  return [...told, misspeltAt(document, path.map(String).join('.'), 'unknown-field', message)];
}

function unknownField(
  document: CombinationDocument,
  path: readonly PropertyKey[],
  name: string,
  names: readonly string[],
): Problem {
  const at = join(path.map(String).join('.'), name);
  const now = newFieldFor(at, valueAt(document.data, at));
  if (now !== null)
    return misspeltAt(document, at, 'unknown-field', 'has another name now', { hint: `write ${now}` });
  const matter = notForecast(name);
  if (matter !== null) {
    const { message, hint } = notForecastMessage(matter);
    return misspeltAt(document, at, 'unknown-field', message, { hint });
  }
  const nearest = nearestName(name, names);
  const spelling = nearest === null ? `known here: ${names.join(', ')}` : `did you mean ${nearest}?`;
  const hint = wordForField(at) ?? spelling;
  const short = name.length > 60 ? `${name.slice(0, 57)}...` : name;
  const field = join(path.map(String).join('.'), short);
  return misspeltAt(document, field, 'unknown-field', 'is not a field of this file', { hint, nearest });
}

/** Names of the fields the schema knows at a path. */
export function fieldNames(path: readonly PropertyKey[], root: FieldShape): readonly string[] {
  let found: readonly FieldShape[] = [root];
  for (const step of path) {
    const name = String(step);
    found = found.flatMap(alternatives).flatMap((schema) => {
      const next = typeof step === 'number' ? schema.items : schema.properties?.[name];
      return next === undefined ? [] : [next];
    });
  }
  return found.flatMap(alternatives).flatMap((schema) => Object.keys(schema.properties ?? {}));
}

function alternatives(schema: FieldShape): readonly FieldShape[] {
  return schema.anyOf === undefined ? [schema] : schema.anyOf.flatMap(alternatives);
}

/** A problem at a field, placed where the field stands or else where the nearest field around it does. */
export function problemOf(
  document: CombinationDocument,
  path: string,
  code: PlainCode,
  message: string,
  hint: string | null = null,
): PlainProblem {
  return { ...placeOf(document, path), code, message, hint };
}

/** A name that is not known, and the nearest there is. */
function misspeltAt(
  document: CombinationDocument,
  path: string,
  code: MisspeltCode,
  message: string,
  { hint = null, nearest = null }: Partial<Pick<MisspeltProblem, 'hint' | 'nearest'>> = {},
): MisspeltProblem {
  return { ...placeOf(document, path), code, message, hint, nearest };
}

function placeOf(
  document: CombinationDocument,
  path: string,
): Pick<PlainProblem, 'file' | 'line' | 'column' | 'path'> {
  const place = positionOf(document, path);
  return {
    file: document.file,
    line: place?.line ?? null,
    column: place?.column ?? null,
    path,
  };
}

function positionOf(document: CombinationDocument, path: string): { line: number; column: number } | null {
  for (let here = path; here !== ''; here = here.slice(0, Math.max(0, here.lastIndexOf('.')))) {
    if (Object.hasOwn(document.positions, here)) return document.positions[here];
  }
  return null;
}
