/** The paths of every field a combination file may have. */
import { nearestName } from '../nearestName.ts';
import { type FieldShape, fileShape } from './fieldShape.ts';

/** How many near paths are worth offering. */
const MOST_OFFERED = 3;

let collected: readonly string[] | undefined;

/** Every field by its path, dots between the names, in the order of the file. A list counts as one field. */
export function fieldPaths(): readonly string[] {
  // Collected when first asked for, since a study asks for every combination it makes, and they never change.
  collected ??= collectedOf(fileShape());
  return collected;
}

/** The same of any schema. */
export function pathsOf(schema: FieldShape): readonly string[] {
  return schema === fileShape() ? fieldPaths() : collectedOf(schema);
}

function collectedOf(schema: FieldShape): readonly string[] {
  const paths = new Set<string>();
  collect(schema, '', paths);
  return [...paths];
}

function collect(schema: FieldShape, path: string, paths: Set<string>): void {
  for (const branch of schema.anyOf ?? []) collect(branch, path, paths);
  for (const [name, field] of Object.entries(schema.properties ?? {})) {
    const inner = path === '' ? name : `${path}.${name}`;
    paths.add(inner);
    collect(field, inner, paths);
  }
}

/**
 * The paths somebody probably meant: each name put right in its section; else paths that end as written; else those few
 * letters away.
 */
export function nearestPaths(written: string, paths: readonly string[]): readonly string[] {
  const mended = mendedPath(written, paths);
  if (mended !== null) return [mended];
  const ending = paths.filter((path) => path.toLowerCase().endsWith(`.${written.toLowerCase()}`));
  if (ending.length > 0) return ending.slice(0, MOST_OFFERED);
  const nearest = nearestName(written, paths);
  return nearest === null ? [] : [nearest];
}

/** The path with each name replaced by the nearest in its section; null where a name is near none. */
function mendedPath(written: string, paths: readonly string[]): string | null {
  let path = '';
  for (const name of written.split('.')) {
    const section = path === '' ? '' : `${path}.`;
    const inside = paths
      .filter((known) => known.startsWith(section))
      .map((known) => known.slice(section.length));
    const nearest = nearestName(
      name,
      inside.filter((known) => !known.includes('.')),
    );
    if (nearest === null) return null;
    path = `${section}${nearest}`;
  }
  return path;
}
