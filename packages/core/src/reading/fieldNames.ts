/** The fields that a schema knows. */
import type { FieldShape } from './schema/fieldShape.ts';

/** Names of the fields the schema knows at a path. */
export function fieldNames(path: readonly PropertyKey[], root: FieldShape): readonly string[] {
  return shapesAt(path, root).flatMap((schema) => Object.keys(schema.properties ?? {}));
}

/** What may stand at a path; nothing where the schema doesn't know it. */
export function shapesAt(path: readonly PropertyKey[], root: FieldShape): readonly FieldShape[] {
  let found: readonly FieldShape[] = [root];
  for (const step of path) {
    const name = String(step);
    found = found.flatMap(alternatives).flatMap((schema) => {
      const next = typeof step === 'number' ? schema.items : schema.properties?.[name];
      return next === undefined ? [] : [next];
    });
  }
  return found.flatMap(alternatives);
}

function alternatives(schema: FieldShape): readonly FieldShape[] {
  return schema.anyOf === undefined ? [schema] : schema.anyOf.flatMap(alternatives);
}
