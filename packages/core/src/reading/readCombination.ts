/** Text of a combination file to a complete combination, or to the list of everything that is wrong with it. */
import type { Result } from '../base/result.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { inFileOrder } from './inFileOrder.ts';
import { readDocument } from './readDocument.ts';
import { resolveDocument } from './resolveDocument.ts';
import type { SheetSource } from './sheet/readSheets.ts';

/**
 * Reads YAML (or JSON) and the CSV sheets it names. Pure: `sheet` gives the text of a sheet by the name used in the file.
 *
 * @example
 * ```ts
 * const read = readCombination(text, { file: 'engine.yaml', sheet: (name) => sheets[name] });
 * if (read.ok) console.log(read.value.assumed.length, 'values were assumed');
 * else console.error(read.problems.map(problemLine).join('\n'));
 * ```
 */
export function readCombination(
  text: string,
  options: { readonly file?: string; readonly sheet?: SheetSource } = {},
): Result<Combination, Problem> {
  const read = readDocument(text, options.file === undefined ? {} : { file: options.file });
  if (read.ok) return resolveDocument(read.value, { sheet: options.sheet });
  if (read.partial === undefined) return { ok: false, problems: read.problems };
  const rest = resolveDocument(read.partial, { sheet: options.sheet });
  return { ok: false, problems: inFileOrder([...read.problems, ...(rest.ok ? [] : rest.problems)]) };
}
