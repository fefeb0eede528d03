/** Nodes of YAML to plain values, with what no plain value has refused on the way. */

import { isAlias, isMap, isScalar, isSeq, type Pair, type YAMLMap } from 'yaml';
import { join, type Plain } from '../combinationDocument.ts';
import { bareName } from './bareName.ts';
import { shortName } from './shortName.ts';
import { complain, notePosition, spotOf, type Walk } from './walk.ts';

/** Deepest nesting read; a combination needs five. */
const MAX_DEPTH = 20;

/** Most fields and list entries read; the fullest combination has a few hundred. */
export const MAX_FIELDS = 3_000;

const FORBIDDEN_NAMES: ReadonlySet<string> = new Set(['__proto__', 'prototype', 'constructor']);

/** The value of a node at a path, this deep in the file. */
export function toPlain(node: unknown, path: string, depth: number, walk: Walk): Plain {
  if (node === null || node === undefined) return null;
  if (depth > MAX_DEPTH) {
    complain(walk, spotOf(node, path), 'too-deep', 'is nested too deep');
    return null;
  }
  walk.met += 1;
  if (walk.met > MAX_FIELDS || isMarked(node, path, walk)) return null;
  if (isScalar(node)) return scalarValue(node, path, walk);
  if (isSeq(node)) {
    return node.items.map((item, index) => {
      const child = join(path, String(index));
      notePosition(item, child, walk);
      return toPlain(item, child, depth + 1, walk);
    });
  }
  return isMap(node) ? fieldsOf(node, path, depth, walk) : null;
}

function scalarValue(node: { readonly value: unknown }, path: string, walk: Walk): Plain {
  const { value } = node;
  if (typeof value === 'number' && !Number.isFinite(value)) {
    complain(walk, spotOf(node, path), 'not-finite', 'is not a finite number');
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
  complain(walk, spotOf(node, path), 'syntax', 'is neither a word nor a number');
  return null;
}

function fieldsOf(map: YAMLMap, path: string, depth: number, walk: Walk): Plain {
  const fields: Record<string, Plain> = {};
  map.items.forEach(({ key, value }, index) => {
    const name = isMarked(key, path, walk) ? null : nameOf(key, path, walk);
    if (name === null) return;
    if (value === null && map.flow === true) {
      settleBareName(fields, map.items, index, { path, bare: name }, walk);
      return;
    }
    const child = join(path, name);
    if (Object.hasOwn(fields, name)) {
      const message = `is given twice, first on line ${walk.positions[child].line}: keep one of the two`;
      complain(walk, spotOf(key, child), 'duplicate-field', message);
      return;
    }
    notePosition(key, child, walk);
    fields[name] = toPlain(value, child, depth + 1, walk);
  });
  return fields;
}

/** The name of a field; null, and a problem told, for what can be none. */
function nameOf(key: unknown, path: string, walk: Walk): string | null {
  const name = isScalar(key) ? String(key.value) : '';
  if (name === '') {
    complain(walk, spotOf(key, path), 'field-name', 'has a field whose name is not a word');
    return null;
  }
  if (FORBIDDEN_NAMES.has(name)) {
    complain(walk, spotOf(key, path), 'field-name', `has a field named '${name}'`);
    return null;
  }
  return name;
}

/** Tells of a name without a value, and gives the field before it the decimals where they are what was meant. */
function settleBareName(
  fields: Record<string, Plain>,
  items: readonly Pair[],
  index: number,
  { path, bare }: { readonly path: string; readonly bare: string },
  walk: Walk,
): void {
  const { complaint, mended } = bareName(items, index);
  const field = join(path, mended?.name ?? bare);
  complain(walk, spotOf(items[index].key, field), ...complaint);
  if (mended !== null && Object.hasOwn(fields, mended.name)) fields[mended.name] = mended.value;
}

/** Tells of an anchor, an alias or a tag; a plain value has none. */
function isMarked(node: unknown, path: string, walk: Walk): boolean {
  const hasMarks = isMap(node) || isSeq(node) || isScalar(node);
  if (isAlias(node) || (hasMarks && node.anchor !== undefined)) {
    const hint = 'write the value out in each place';
    complain(walk, spotOf(node, path), 'alias', 'uses an anchor or alias', hint);
    return true;
  }
  if (hasMarks && node.tag !== undefined) {
    const tag = shortName(node.tag.replace('tag:yaml.org,2002:', '!!'));
    complain(walk, spotOf(node, path), 'tag', `uses a tag, ${tag}`, 'write the value alone');
    return true;
  }
  return false;
}
