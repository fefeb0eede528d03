/** What is wrong with a file: one line for people, one code for machines. */

/** One thing that stops a file from being read. */
export interface Problem {
  /** Name of the file or sheet the problem is in. */
  readonly file: string;
  /** From 1; null where the place is not known. */
  readonly line: number | null;
  /** From 1; null where the place is not known. */
  readonly column: number | null;
  /** Field of the combination file, dots between the names: `cam.intake.advertised`; empty for the whole file. */
  readonly path: string;
  /** Stable, for machines. */
  readonly code: string;
  /** What is wrong, without place. */
  readonly message: string;
  /** What to write instead, where that is known. */
  readonly hint: string | null;
}

/**
 * A problem as one line: `engine.yaml:4:3 engine.bore needs a unit: '4.155' could be anything (write it like 4.000 in)`.
 *
 * @example
 * ```ts
 * const read = readCombination(text);
 * if (!read.ok) console.error(read.problems.map(problemLine).join('\n'));
 * ```
 */
export function problemLine(problem: Problem): string {
  const place = [problem.file, problem.line, problem.column].filter((part) => part !== null).join(':');
  const hint = problem.hint === null ? '' : ` (${problem.hint})`;
  return [place, problem.path, `${problem.message}${hint}`].filter((part) => part !== '').join(' ');
}
