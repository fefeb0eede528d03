/** The form of a combination file, published for editors. */
import * as z from 'zod/mini';
import { FILE_WORDS } from '../words/fileWords.ts';
import { SECTIONS } from './combinationFile.ts';
import { withWords } from './withWords.ts';

/**
 * JSON Schema (draft-07) of the combination file, for editors that complete and explain.
 *
 * @example
 * ```ts
 * console.log(JSON.stringify(combinationSchema(), null, 2));
 * ```
 */
export function combinationSchema(): Record<string, unknown> {
  const shape: Record<string, z.ZodMiniType> = {};
  for (const [name, schema] of Object.entries(SECTIONS)) {
    shape[name] = name === 'engine' ? schema : z.optional(schema);
  }
  const file = z.strictObject(shape).check(
    z.meta({
      title: 'Combination',
      description: 'One complete engine specification. Every quantity carries its unit.',
    }),
  );
  const schema = z.toJSONSchema(file, { target: 'draft-7', io: 'input', reused: 'inline' });
  return withWords(schema as Record<string, unknown>, FILE_WORDS);
}
