/** Changing a document by path before it is resolved. */
import type { Assumed } from '../combination/combination.ts';
import type { CombinationDocument, Plain } from './combinationDocument.ts';

const FORBIDDEN_NAMES: ReadonlySet<string> = new Set(['', '__proto__', 'prototype', 'constructor']);

/** Longest list an edit may extend. */
const MAX_INDEX = 200;

/**
 * A copy of the document with one field set; `null` takes the field out, and parts within a section that are empty without it. Sections on
 * the way are made where missing, and a plain word in the way (`collector: none`) gives way to fields. Whether path and value make sense shows when it is resolved.
 *
 * @example
 * ```ts
 * const edited = editDocument(baseline.stated, 'chamber.compression', 10.5);
 * ```
 */
export function editDocument(document: CombinationDocument, path: string, value: Plain): CombinationDocument {
  const names = path.split('.');
  if (names.some((name) => FORBIDDEN_NAMES.has(name))) return document;
  const [section = '', ...rest] = names;
  const inside = rest.length > 0 ? withField(document.data[section], rest, value) : value;
  const data: Record<string, Plain> = { ...document.data };
  // A section stays, though nothing is left in it: whoever reads the file looks for what is missing there.
  if (inside === null) delete data[section];
  else data[section] = inside;
  return { ...document, data };
}

/**
 * A copy of the document in which every assumed value is written out.
 *
 * A study starts from it: with the estimates pinned, a change alters what it names and nothing else. Without it, a larger
 * valve would also be given a larger port and another cam wherever those were estimates.
 */
export function pinAssumed(document: CombinationDocument, assumed: readonly Assumed[]): CombinationDocument {
  return assumed.reduce((pinned, entry) => editDocument(pinned, entry.path, pinnedValue(entry)), document);
}

function pinnedValue({ value, unit }: Assumed): Plain {
  if (value === 'true' || value === 'false') return value === 'true';
  return unit === '' ? value : `${value} ${unit}`;
}

function withField(here: Plain | undefined, names: readonly string[], value: Plain): Plain {
  const [name, ...rest] = names;
  if (Array.isArray(here)) {
    const index = Number(name);
    if (!(Number.isInteger(index) && index >= 0 && index <= Math.min(here.length, MAX_INDEX))) return here;
    const copy = [...here];
    copy[index] = rest.length === 0 ? value : withField(here[index], rest, value);
    return copy;
  }
  const fields: Record<string, Plain> = {};
  if (here !== null && typeof here === 'object') Object.assign(fields, here);
  const inside = rest.length > 0 ? withField(fields[name], rest, value) : value;
  if (inside === null || (value === null && isEmpty(inside))) delete fields[name];
  else fields[name] = inside;
  return fields;
}

/** Nothing is left of a part whose last field was taken out: an empty section would still say that there is one. */
function isEmpty(value: Plain): boolean {
  return value !== null && typeof value === 'object' && Object.keys(value).length === 0;
}
