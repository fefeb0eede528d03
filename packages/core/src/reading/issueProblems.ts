/** What a schema has against a document, in a builder's words. */
import type * as z from 'zod/mini';
import type { PlainCode, Problem } from '../combination/problem.ts';
import type { CombinationDocument } from './combinationDocument.ts';
import { nearestName } from './nearestName.ts';
import { newWordFor } from './oldNames.ts';
import { misspeltAt, problemOf } from './problemOf.ts';
import { type FieldShape, fileShape } from './schema/fieldShape.ts';
import { wordForValue } from './tradeWords.ts';
import { unknownFields } from './unknownFields.ts';

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
  if (issue.code === 'unrecognized_keys') return unknownFields(document, path, issue.keys, schema);
  const comma = issue.code === 'custom' ? null : decimalComma(issue.input);
  if (comma !== null) return [problemOf(document, field, 'decimal-comma', comma.message, comma.hint)];
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

/** A plain number with a comma, `9,6`, which YAML takes for a text; a quantity tells its own. */
function decimalComma(input: unknown): { readonly message: string; readonly hint: string } | null {
  const [written, whole, digits] =
    /^\s*(-?\d+),(\d+)\s*$/u.exec(typeof input === 'string' ? input : '') ?? [];
  return written === undefined
    ? null
    : { message: `has a decimal comma in '${written.trim()}'`, hint: `write ${whole}.${digits}` };
}

/** A number that should be a text, or one in quotes that should be none. */
function quotesHint({ expected, input }: Issue & { code: 'invalid_type' }): string | null {
  if (expected === 'string' && typeof input === 'number') return `put it in quotes: "${input}"`;
  const isQuoted = kindName(expected).endsWith('number') && typeof input === 'string';
  return isQuoted && /^\s*-?\d+(?:\.\d+)?\s*$/u.test(input) ? `write ${input.trim()} without quotes` : null;
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
      hint: quotesHint(issue),
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
