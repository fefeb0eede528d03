/** Text of a combination file to a plain document that still knows where each field stood. */

import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import type { Problem } from '../combination/problem.ts';
import type { CombinationDocument, Plain } from './combinationDocument.ts';
import { parseText } from './yaml/parseText.ts';
import { MAX_FIELDS, toPlain } from './yaml/toPlain.ts';
import { type Complaint, complain, newWalk, problemAt, type Walk, WHOLE_FILE } from './yaml/walk.ts';

/** Longest file read [characters]; a combination takes a few thousand. */
const MAX_FILE_LENGTH = 400_000;

/** Most problems of a text told singly; whoever has more begins anew. */
const MOST_PROBLEMS = 100;

/** Name used where the caller gives none. */
const DEFAULT_FILE_NAME = 'combination';

/** Slips that leave a document in which what else is wrong can be looked for. */
const READABLE: ReadonlySet<string> = new Set([
  'duplicate-field',
  'decimal-comma',
  'value-missing',
  'more-problems',
]);

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
  const walk = newWalk(options.file ?? DEFAULT_FILE_NAME);
  if (text.length > MAX_FILE_LENGTH) {
    const message = `is too long: ${text.length} characters, at most ${MAX_FILE_LENGTH} are read`;
    return refused(walk, 'file-too-long', message);
  }
  const contents = parseText(text, walk);
  if (contents === undefined) return { ok: false, problems: walk.problems };
  const data = toPlain(contents, '', 0, walk);
  if (walk.met > MAX_FIELDS) {
    return refused(walk, 'file-too-long', `holds more than ${MAX_FIELDS} fields, which no engine has`);
  }
  const sections = isSections(data) ? data : null;
  if (sections === null && isReadable(walk.problems)) complainOfSections(data, walk);
  const problems = fewer(walk);
  if (sections === null || !isReadable(problems)) return { ok: false, problems };
  const document = { file: walk.file, data: sections, positions: walk.positions };
  return problems.length > 0 ? { ok: false, problems, partial: document } : { ok: true, value: document };
}

/** A file that is wrong as a whole: nothing else is worth telling. */
function refused(walk: Walk, ...complaint: Complaint): { ok: false; problems: readonly Problem[] } {
  return { ok: false, problems: [problemAt(walk, WHOLE_FILE, complaint)] };
}

function isReadable(problems: readonly Problem[]): boolean {
  return problems.every(({ code }) => READABLE.has(code));
}

function isSections(data: Plain): data is { readonly [name: string]: Plain } {
  return data !== null && typeof data === 'object' && !Array.isArray(data);
}

function complainOfSections(data: Plain, walk: Walk): void {
  if (data === null) complain(walk, WHOLE_FILE, 'file-empty', 'is empty');
  else {
    const message = 'is not a combination: sections such as engine: are expected';
    complain(walk, WHOLE_FILE, 'not-a-combination', message);
  }
}

function fewer(walk: Walk): readonly Problem[] {
  const { problems } = walk;
  if (problems.length <= MOST_PROBLEMS) return problems;
  const message = `has ${problems.length - MOST_PROBLEMS} more problems of this kind`;
  return [...problems.slice(0, MOST_PROBLEMS), problemAt(walk, WHOLE_FILE, ['more-problems', message])];
}
