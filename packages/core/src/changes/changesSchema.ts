/** The form of a changes file, published for editors. */
import * as z from 'zod/mini';
import { fieldPaths } from '../reading/schema/fieldPaths.ts';
import { changesFile } from './changesFile.ts';

/**
 * JSON Schema (draft-07) of a changes file, for editors that complete and explain.
 *
 * @example
 * ```ts
 * console.log(JSON.stringify(changesSchema(), null, 2));
 * ```
 */
export function changesSchema(): Record<string, unknown> {
  const paths = fieldPaths();
  return z.toJSONSchema(changesFile, {
    target: 'draft-7',
    io: 'input',
    reused: 'inline',
    override: ({ path, jsonSchema }) => {
      const name = path[path.length - 1];
      if (path.at(-2) !== 'properties' || !(name === 'set' || name === 'scale' || name === 'add')) return;
      // Dotted paths complete in an editor; sections nested in each other are as good.
      jsonSchema.properties = Object.fromEntries(paths.map((field) => [field, {}]));
    },
  }) as Record<string, unknown>;
}
