/** The form of a shelf file, published for editors. */
import * as z from 'zod/mini';
import { withWords } from '../reading/schema/withWords.ts';
import { shelfFile } from './shelfFile.ts';

/**
 * JSON Schema (draft-07) of a shelf file, for editors that complete and explain.
 *
 * @example
 * ```ts
 * console.log(JSON.stringify(shelfSchema(), null, 2));
 * ```
 */
export function shelfSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(shelfFile, { target: 'draft-7', io: 'input', reused: 'inline' });
  return withWords(schema as Record<string, unknown>);
}
