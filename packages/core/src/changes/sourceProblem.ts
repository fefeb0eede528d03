/** A problem of an edit, told where the edit stands. */

import type { PlainCode, PlainProblem } from '../combination/problem.ts';
import type { Change } from './change.ts';

/** A problem at an edit of a change, placed where the edit stands in its file. */
export function sourceProblem(
  { name, source }: Pick<Change, 'name' | 'source'>,
  path: string,
  code: PlainCode,
  message: string,
  hint: string | null = null,
): PlainProblem {
  const place = source?.positions[path] ?? source?.positions[''] ?? null;
  return {
    file: source?.file ?? `change '${name}'`,
    line: place?.line ?? null,
    column: place?.column ?? null,
    path,
    code,
    message,
    hint,
  };
}
