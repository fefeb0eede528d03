/** Names of the fields that a schema knows. */
import type { FieldShape } from './schema/fieldShape.ts';

/** Names of the fields the schema knows at a path. */
export function fieldNames(path: readonly PropertyKey[], root: FieldShape): readonly string[] {
  let found: readonly FieldShape[] = [root];
  for (const step of path) {
    const name = String(step);
    found = found.flatMap(alternatives).flatMap((schema) => {
      const next = typeof step === 'number' ? schema.items : schema.properties?.[name];
      return next === undefined ? [] : [next];
    });
  }
  return found.flatMap(alternatives).flatMap((schema) => Object.keys(schema.properties ?? {}));
}

function alternatives(schema: FieldShape): readonly FieldShape[] {
  return schema.anyOf === undefined ? [schema] : schema.anyOf.flatMap(alternatives);
}
