/** Text of a combination file to a complete combination, or to the list of everything that is wrong with it. */
import { readDocument } from './readDocument.ts';
import { type ReadResult, resolveDocument } from './resolveDocument.ts';
import type { SheetSource } from './sheet/readSheets.ts';

/**
 * Reads YAML (or JSON) and the CSV sheets it names. Pure: `sheet` gives the text of a sheet by the name used in the file.
 */
export function readCombination(
  text: string,
  options: { readonly file?: string; readonly sheet?: SheetSource } = {},
): ReadResult {
  const read = readDocument(text, options.file === undefined ? {} : { file: options.file });
  return read.ok ? resolveDocument(read.document, { sheet: options.sheet }) : read;
}
