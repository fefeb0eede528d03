/** Fields of a document by a path that the compiler knows. */

import type { CombinationDocument, Plain } from './combinationDocument.ts';
import { editDocument } from './editDocument.ts';
import type { FieldPath } from './schema/fieldPath.ts';
import { valueAt } from './valueAt.ts';

/** What the document says of a field; undefined where it is silent. */
export function fieldOf({ data }: CombinationDocument, path: FieldPath): Plain | undefined {
  return valueAt(data, path);
}

/** A copy of the document with the field set; null takes it out. */
export function withField(document: CombinationDocument, path: FieldPath, value: Plain): CombinationDocument {
  return editDocument(document, path, value);
}
