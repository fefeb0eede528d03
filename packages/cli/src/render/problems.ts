/** What is wrong with the input, one line each. */
import type { Problem } from '@valvetide/core';
import { jsonLine } from './json.ts';
import { plain } from './plain.ts';

/** `engine.yaml:12: engine.bore: needs a unit (write it like 4.000 in)` */
export function problemLine({ file, line, path, message, hint }: Problem): string {
  const place = line === null ? file : `${file}:${line}`;
  const field = path === '' ? '' : ` ${path}:`;
  return plain(`${place}:${field} ${message}${hint === null ? '' : ` (${hint})`}`);
}

/** The same as one JSON object, for `--json`. */
export function problemJson({ file, line, column, path, code, message, hint }: Problem): string {
  return jsonLine({ file, line, column, path, code, message, hint });
}
