/** What stands at a path of a document. */
import type { Plain } from './combinationDocument.ts';

/** The value at a path, or undefined. */
export function valueAt(data: Plain, path: string): Plain | undefined {
  let here: Plain | undefined = data;
  for (const name of path.split('.')) {
    if (here === null || typeof here !== 'object' || !Object.hasOwn(here, name)) return undefined;
    here = (here as { readonly [name: string]: Plain })[name];
  }
  return here;
}
