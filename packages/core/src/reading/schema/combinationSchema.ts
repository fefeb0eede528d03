/** The form of a combination file, published for editors. */
import * as z from 'zod/mini';
import { SECTIONS } from './combinationFile.ts';

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
  return z.toJSONSchema(file, {
    target: 'draft-7',
    io: 'input',
    reused: 'inline',
    override: ({ zodSchema, jsonSchema }) => {
      // Left out by zod where reading changes the value, since they might be examples of the result; ours never are.
      const { examples } = (z.globalRegistry.get(zodSchema) ?? {}) as { examples?: unknown };
      if (Array.isArray(examples)) jsonSchema.examples = examples;
    },
  }) as Record<string, unknown>;
}
