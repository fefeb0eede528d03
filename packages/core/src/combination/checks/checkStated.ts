/** Cross-checks on what a file states, before any gap is filled. */
import type { Problem } from '../problem.ts';
import type { CombinationDocument } from '../readDocument.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { Sheets } from '../sheet/readSheets.ts';

export function checkStated(
  _document: CombinationDocument,
  _file: PartialFile,
  _sheets: Sheets,
): readonly Problem[] {
  return [];
}
