/** What is wrong with the input, one line each. */
import type { Problem } from '@valvetide/core';
import type { Core } from '../core.ts';
import { jsonLine } from './json.ts';
import { plain } from './plain.ts';

/** As the library words it, or as one JSON object. */
export function problemText(problem: Problem, form: 'line' | 'json', { problemLine }: Core): string {
  const { file, line, column, path, code, message, hint, ...details } = problem;
  return form === 'json'
    ? jsonLine({ file, line, column, path, code, message, hint, ...details })
    : plain(problemLine(problem));
}
