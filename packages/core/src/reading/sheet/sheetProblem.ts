/** What is wrong with a sheet, and its lines. */
import type { PlainCode, Problem } from '../../combination/problem.ts';

/** A problem in a sheet; `path` is filled in by whoever knows which field named it. */
export function sheetProblem(
  name: string,
  line: number | null,
  code: PlainCode,
  message: string,
  hint: string | null = null,
): Problem {
  return { file: name, line, column: null, path: '', code, message, hint };
}

/** Notes a problem at a line of a sheet, which is read on for others. */
export type Fail = (line: number | null, code: PlainCode, message: string, hint?: string | null) => void;

/** A sheet that is not read, for one reason. */
export interface Refused {
  readonly ok: false;
  readonly problems: readonly Problem[];
}

/** Refuses a sheet of that name. */
export type Refuse = (line: number | null, code: PlainCode, message: string, hint?: string | null) => Refused;

export const refuserOf =
  (name: string): Refuse =>
  (line, code, message, hint = null) => ({
    ok: false,
    problems: [sheetProblem(name, line, code, message, hint)],
  });

/** A text longer than is read; null where it isn't. */
export function tooLong(text: string, most: number, refuse: Refuse): Refused | null {
  if (text.length <= most) return null;
  return refuse(null, 'sheet-too-long', `is too long: ${text.length} characters, at most ${most} are read`);
}

/** The lines of a text, whatever ends them, without the mark that some programs put first. */
export function linesOf(text: string): readonly string[] {
  return text.replace(/^\uFEFF/u, '').split(/\r\n|\n|\r/u);
}
