/** Changing fields in the text of a combination file, so that its remarks stay where they are. */
import { type Document, isCollection, isMap, isScalar, isSeq, parseDocument, visit } from 'yaml';
import { DomainError } from '../base/errors.ts';
import type { Plain } from './combinationDocument.ts';
import { withLineFeeds } from './yaml/parseText.ts';

/** A field and what to write there; null takes it out. */
export type FieldValue = readonly [path: string, value: Plain];

/**
 * The text with fields set. Remarks, order and spelling of all other fields are kept, blanks inside of brackets among them; what is new is
 * added at the end of its section. A section whose value is a plain word gives way to fields.
 *
 * @throws {@link DomainError} where the text is no readable YAML
 *
 * @example
 * ```ts
 * const longer = editText(text, [['exhaust.primary.length', '34 in']]);
 * ```
 */
export function editText(text: string, edits: readonly FieldValue[]): string {
  const lines = withLineFeeds(text);
  const document = parseDocument(lines, { schema: 'core', merge: false });
  if (document.errors.length > 0)
    throw new DomainError('text', 'unreadable YAML', 'a readable combination file');
  for (const [path, value] of edits) setField(document, path.split('.'), value);
  keepBrackets(document, lines);
  return document.toString({ lineWidth: 0 });
}

/** The library writes all brackets alike; these keep their blanks, and new ones are `[1, 2]` and `{ a: 1 }`. */
function keepBrackets(document: Document, text: string): void {
  visit(document, {
    Collection: (_key, node) => {
      if (!isCollection(node) || node.flow !== true) return;
      const isPadded = node.range ? text[node.range[0] + 1] === ' ' : isMap(node);
      const write = node.toString.bind(node);
      node.toString = (context, ...rest) =>
        write(context && { ...context, flowCollectionPadding: isPadded ? ' ' : '' }, ...rest);
    },
  });
}

function setField(document: Document, names: readonly string[], value: Plain): void {
  if (value === null) {
    if (document.hasIn(names)) document.deleteIn(names);
    return;
  }
  for (let depth = 1; depth < names.length; depth += 1) {
    const above = names.slice(0, depth);
    if (document.hasIn(above) && !isMap(document.getIn(above, true)))
      document.setIn(above, document.createNode({}));
  }
  const old = document.getIn(names, true);
  // A number in place of a number keeps the remark behind it.
  if (isScalar(old) && typeof value !== 'object') {
    old.value = value;
    return;
  }
  const node = document.createNode(value);
  if (names.length === 1 && names[0] === 'calibration') layOut(node);
  document.setIn(names, node);
}

/** Lists and the rows of lists on one line each, as a person would write them. */
function layOut(node: unknown): void {
  if (!isMap(node)) return;
  for (const { value } of node.items) {
    if (!isSeq(value)) continue;
    const rows = value.items.filter((item) => isMap(item) || isSeq(item));
    for (const row of rows.length > 0 ? rows : [value]) row.flow = true;
  }
}
