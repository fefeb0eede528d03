/** What is wrong with the input, one line each. */
import type { Problem } from '@valvetide/core';
import type { Core } from '../core.ts';
import { jsonLine } from './json.ts';
import { plain } from './plain.ts';

/** As the library words it, or for `--json` as one JSON object. */
export function problemText(problem: Problem, asJson: boolean, { problemLine }: Core): string {
  const { file, line, column, path, code, message, hint, ...details } = problem;
  return asJson
    ? jsonLine({ file, line, column, path, code, message, hint, ...details })
    : plain(problemLine(problem));
}
