/** The paths of every field a combination file may have. */
import { nearestName } from '../nearestName.ts';
import { combinationSchema } from './combinationFile.ts';

interface JsonSchema {
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
}

/** How many near paths are worth offering. */
const MOST_OFFERED = 3;

/** Every field by its path, dots between the names, in the order of the file. A list counts as one field. */
export function fieldPaths(): readonly string[] {
  const paths = new Set<string>();
  collect(combinationSchema() as JsonSchema, '', paths);
  return [...paths];
}

function collect(schema: JsonSchema, path: string, paths: Set<string>): void {
  for (const branch of schema.anyOf ?? []) collect(branch, path, paths);
  for (const [name, field] of Object.entries(schema.properties ?? {})) {
    const inner = path === '' ? name : `${path}.${name}`;
    paths.add(inner);
    collect(field, inner, paths);
  }
}

/** The paths somebody probably meant, nearest first: those that end as written, then those few letters away. */
export function nearestPaths(written: string, paths: readonly string[]): readonly string[] {
  const ending = paths.filter((path) => path.toLowerCase().endsWith(`.${written.toLowerCase()}`));
  const found = [...ending];
  while (found.length < MOST_OFFERED) {
    const next = nearestName(
      written,
      paths.filter((path) => !found.includes(path)),
    );
    if (next === null) break;
    found.push(next);
  }
  return found.slice(0, MOST_OFFERED);
}
