/** Text of a combination file to a plain document that still knows where each field stood. */

import { isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument, type YAMLError } from 'yaml';
import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import type { PlainCode, Problem } from '../combination/problem.ts';

/** A plain value as JSON has them. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [name: string]: Plain };

/** A combination file as written, before its values are checked. Plain and serialisable. */
export interface CombinationDocument {
  /** Name to show in problems. */
  readonly file: string;
  /** The sections, as written. */
  readonly data: { readonly [name: string]: Plain };
  /** Where each field stands, by path, from 1. */
  readonly positions: Readonly<Record<string, { readonly line: number; readonly column: number }>>;
}

/** Longest file read [characters]; a combination takes a few thousand. */
export const MAX_FILE_LENGTH = 400_000;
/** Deepest nesting read; a combination needs five. */
export const MAX_DEPTH = 20;

/** Most brackets open at once. */
const MAX_OPEN_BRACKETS = 60;

/** Most fields and list entries read; the fullest combination has a few hundred. */
const MAX_FIELDS = 3_000;

/** After a few slips of syntax the parser only stumbles on. */
const MAX_SYNTAX_PROBLEMS = 5;

/** Most problems of a text told singly; whoever has more begins anew. */
const MOST_PROBLEMS = 100;

/** Name used where the caller gives none. */
export const DEFAULT_FILE_NAME = 'combination';

const DUPLICATE = 'duplicate-field';

/** Slips that leave a document in which what else is wrong can be looked for. */
const READABLE: ReadonlySet<string> = new Set([DUPLICATE, 'decimal-comma', 'value-missing', 'more-problems']);

const FORBIDDEN_NAMES: ReadonlySet<string> = new Set(['__proto__', 'prototype', 'constructor']);

interface Walk {
  readonly file: string;
  readonly lines: LineCounter;
  readonly positions: Record<string, { line: number; column: number }>;
  readonly problems: Problem[];
  /** Fields and list entries met so far. */
  met: number;
}

/**
 * Reads YAML 1.2 (JSON is part of it). Anchors, aliases, tags and repeated names are refused: a file that is
 * read by people has no use for them, and they are how small files become huge ones. Where fields were merely given twice,
 * or cut by a decimal comma, `partial` holds what was probably meant, so that what else is wrong can be looked for.
 *
 * @throws {@link DomainError} where `text` is no text: a Buffer, say, or nothing
 *
 * @example
 * ```ts
 * const read = readDocument(text, { file: 'engine.yaml' });
 * if (read.ok) console.log(Object.keys(read.value.data));
 * ```
 */
export function readDocument(
  text: string,
  options: { readonly file?: string } = {},
): Result<CombinationDocument, Problem, CombinationDocument> {
  if (typeof text !== 'string')
    throw new DomainError('text', typeof text, 'the text of a file, read as UTF-8');
  const file = options.file ?? DEFAULT_FILE_NAME;
  const walk: Walk = { file, lines: new LineCounter(), positions: {}, problems: [], met: 0 };
  if (text.length > MAX_FILE_LENGTH) {
    const message = `is too long: ${text.length} characters, at most ${MAX_FILE_LENGTH} are read`;
    return { ok: false, problems: [problemAt(walk, WHOLE_FILE, 'file-too-long', message)] };
  }
  if (isNestedTooDeep(text)) {
    return {
      ok: false,
      problems: [problemAt(walk, WHOLE_FILE, 'too-deep', 'cannot be read: it is nested too deep')],
    };
  }
  const contents = parse(text, walk);
  if (contents === undefined) return { ok: false, problems: walk.problems };
  const data = toPlain(contents, '', 0, walk);
  if (walk.met > MAX_FIELDS) {
    const message = `holds more than ${MAX_FIELDS} fields, which no engine has`;
    return { ok: false, problems: [problemAt(walk, WHOLE_FILE, 'file-too-long', message)] };
  }
  if (walk.problems.length === 0 && (data === null || typeof data !== 'object' || Array.isArray(data))) {
    const message =
      data === null ? 'is empty' : 'is not a combination: sections such as engine: are expected';
    walk.problems.push(
      problemAt(walk, WHOLE_FILE, data === null ? 'file-empty' : 'not-a-combination', message),
    );
  }
  const problems = fewer(walk);
  if (problems.some(({ code }) => !READABLE.has(code))) return { ok: false, problems };
  const document = { file, data: data as { [name: string]: Plain }, positions: walk.positions };
  return problems.length > 0 ? { ok: false, problems, partial: document } : { ok: true, value: document };
}

function fewer(walk: Walk): readonly Problem[] {
  const { problems } = walk;
  if (problems.length <= MOST_PROBLEMS) return problems;
  const message = `has ${problems.length - MOST_PROBLEMS} more problems of this kind`;
  return [...problems.slice(0, MOST_PROBLEMS), problemAt(walk, WHOLE_FILE, 'more-problems', message)];
}

/**
 * Whether brackets, or list marks on one line, nest deeper than any file needs.
 *
 * Looked at before parsing, since the parser recurses and a stack that runs out can take the whole process with it.
 * Brackets in quoted text and remarks count too: no file has this many of them open.
 */
function isNestedTooDeep(text: string): boolean {
  if (/^(?:[ \t]*[-?:][ \t]){40}/mu.test(text)) return true;
  let open = 0;
  for (const character of text) {
    if (character === '[' || character === '{') open += 1;
    else if (character === ']' || character === '}') open = Math.max(0, open - 1);
    if (open > MAX_OPEN_BRACKETS) return true;
  }
  return false;
}

function parse(text: string, walk: Walk): Node | null | undefined {
  try {
    const parsed = parseDocument(text, {
      lineCounter: walk.lines,
      prettyErrors: false,
      schema: 'core',
      merge: false,
      // Looked for on the way through, where the field's name and first place are known.
      uniqueKeys: false,
    });
    // Tags, known and unknown, are told on the way through, once each.
    const warnings = parsed.warnings.filter(({ code }) => code !== 'TAG_RESOLVE_FAILED');
    // One tab makes the parser stumble over all that follows.
    const tabs = parsed.errors.filter(({ code }) => code === 'TAB_AS_INDENT');
    const errors = tabs.length > 0 ? tabs : parsed.errors;
    const complaints = [...errors, ...warnings].slice(0, MAX_SYNTAX_PROBLEMS);
    walk.problems.push(...complaints.map((error) => syntaxProblem(error, walk)));
    // A directive can turn `no` into false and `1:30` into 90.
    if (/^%/mu.test(text) && isDirected(parsed)) {
      const hint = 'take the line that begins with % out';
      walk.problems.push(problemAt(walk, WHOLE_FILE, 'directive', 'has a YAML directive', hint));
    }
    return parsed.errors.length > 0 ? undefined : parsed.contents;
  } catch {
    // Whatever nesting gets past the look before: the parser recurses.
    walk.problems.push(problemAt(walk, WHOLE_FILE, 'too-deep', 'cannot be read: it is nested too deep'));
    return undefined;
  }
}

/** Whether the text begins with directives for the parser. */
function isDirected({ directives }: ReturnType<typeof parseDocument>): boolean {
  if (directives === undefined) return false;
  return directives.yaml.explicit === true || Object.keys(directives.tags).some((name) => name !== '!!');
}

function syntaxProblem(error: YAMLError, walk: Walk): Problem {
  const message = error.message.replace(/\s+/gu, ' ').trim();
  if (error.code === 'MULTIPLE_DOCS') {
    return problemAt(
      walk,
      { offset: error.pos[0], path: '' },
      'several-documents',
      'holds more than one document: keep one engine a file',
    );
  }
  return problemAt(walk, { offset: error.pos[0], path: '' }, 'syntax', `is not readable YAML: ${message}`);
}

function toPlain(node: unknown, path: string, depth: number, walk: Walk): Plain {
  if (node === null || node === undefined) return null;
  if (depth > MAX_DEPTH) {
    walk.problems.push(problemAt(walk, { offset: offsetOf(node), path }, 'too-deep', 'is nested too deep'));
    return null;
  }
  walk.met += 1;
  if (walk.met > MAX_FIELDS || isMarked(node, path, walk)) return null;
  if (isScalar(node)) return scalarValue(node.value, node, path, walk);
  if (isSeq(node)) {
    return node.items.map((item, index) => {
      const child = join(path, String(index));
      notePosition(offsetOf(item), child, walk);
      return toPlain(item, child, depth + 1, walk);
    });
  }
  if (!isMap(node)) return null;
  const result: Record<string, Plain> = {};
  node.items.forEach(({ key, value }, index) => {
    if (isMarked(key, path, walk)) return;
    const name = isScalar(key) ? String(key.value) : null;
    if (name === null || name === '' || FORBIDDEN_NAMES.has(name)) {
      const message =
        name === null || name === ''
          ? 'has a field whose name is not a word'
          : `has a field named '${plainName(name)}'`;
      walk.problems.push(problemAt(walk, { offset: offsetOf(key), path }, 'field-name', message));
      return;
    }
    const child = join(path, name);
    // `{ compression: 9,5 }` is a field of 9 and a field named 5: the comma parts fields, not digits.
    if (value === null && node.flow === true) {
      const { problem, mended } = withoutValue(node.items, index);
      const field = mended === null ? child : join(path, mended.name);
      walk.problems.push(problemAt(walk, { offset: offsetOf(key), path: field }, ...problem));
      if (mended !== null && Object.hasOwn(result, mended.name)) result[mended.name] = mended.value;
      return;
    }
    if (Object.hasOwn(result, name)) {
      const message = `is given twice, first on line ${walk.positions[child].line}: keep one of the two`;
      walk.problems.push(problemAt(walk, { offset: offsetOf(key), path: child }, DUPLICATE, message));
      return;
    }
    notePosition(offsetOf(key), child, walk);
    result[name] = toPlain(value, child, depth + 1, walk);
  });
  return result;
}

/** Tells of an anchor, an alias or a tag; a plain value has none. */
function isMarked(node: unknown, path: string, walk: Walk): boolean {
  const fill = (code: PlainCode, message: string, hint: string): true => {
    walk.problems.push(problemAt(walk, { offset: offsetOf(node), path }, code, message, hint));
    return true;
  };
  if (isAlias(node) || ((isMap(node) || isSeq(node) || isScalar(node)) && node.anchor !== undefined))
    return fill('alias', 'uses an anchor or alias', 'write the value out in each place');
  if ((isMap(node) || isSeq(node) || isScalar(node)) && node.tag !== undefined)
    return fill(
      'tag',
      `uses a tag, ${plainName(node.tag.replace('tag:yaml.org,2002:', '!!'))}`,
      'write the value alone',
    );
  return false;
}

/** What a field without colon and value may have been: the digits behind a decimal comma, or a slip. */
function withoutValue(
  items: readonly { readonly key: unknown; readonly value: unknown }[],
  index: number,
): {
  problem: [code: PlainCode, message: string, hint: string];
  mended: { readonly name: string; readonly value: Plain } | null;
} {
  const { key } = items[index];
  const written = isScalar(key) ? (key.source ?? String(key.value)) : '';
  const before = index > 0 ? items[index - 1] : null;
  const whole = isScalar(before?.value) ? (before.value.source ?? String(before.value.value)) : '';
  if (before !== null && isScalar(before.key) && /^[+-]?\d+$/u.test(whole) && /^\d/u.test(written)) {
    const meant = `${whole}.${written}`;
    const message = `has a decimal comma in '${plainName(`${whole},${written}`)}'`;
    return {
      problem: ['decimal-comma', message, `write ${plainName(meant)}`],
      mended: {
        name: String(before.key.value),
        value: Number.isFinite(Number(meant)) ? Number(meant) : meant,
      },
    };
  }
  const message = `has no value: '${plainName(written)}' stands alone between commas`;
  return {
    problem: ['value-missing', message, `write its value behind a colon, or take it out`],
    mended: null,
  };
}

/** A name as written in the file, not longer than a line bears. */
function plainName(name: string): string {
  return name.length > 60 ? `${name.slice(0, 57)}...` : name;
}

function scalarValue(value: unknown, node: unknown, path: string, walk: Walk): Plain {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    walk.problems.push(
      problemAt(walk, { offset: offsetOf(node), path }, 'not-finite', 'is not a finite number'),
    );
    return null;
  }
  if (
    value === null ||
    typeof value === 'number' ||
    typeof value === 'boolean' ||
    typeof value === 'string'
  ) {
    return value;
  }
  walk.problems.push(
    problemAt(walk, { offset: offsetOf(node), path }, 'syntax', 'is neither a word nor a number'),
  );
  return null;
}

function notePosition(offset: number | null, path: string, walk: Walk): void {
  if (offset === null) return;
  const { line, col } = walk.lines.linePos(offset);
  walk.positions[path] = { line, column: col };
}

function offsetOf(node: unknown): number | null {
  const range = isAlias(node) || isScalar(node) || isMap(node) || isSeq(node) ? node.range : null;
  return range?.[0] ?? null;
}

/** Dots between the names of a path. */
export function join(path: string, name: string): string {
  return path === '' ? name : `${path}.${name}`;
}

/** Where in a text a problem is; nowhere, where it is one of the whole file. */
interface Spot {
  /** [characters from its beginning] */
  readonly offset: number | null;
  /** Field of the file; empty for the whole file. */
  readonly path: string;
}

const WHOLE_FILE: Spot = { offset: null, path: '' };

function problemAt(
  walk: Walk,
  { offset, path }: Spot,
  code: PlainCode,
  message: string,
  hint: string | null = null,
): Problem {
  const place = offset === null ? null : walk.lines.linePos(offset);
  return {
    file: walk.file,
    line: place?.line ?? null,
    column: place?.col ?? null,
    path,
    code,
    message,
    hint,
  };
}
