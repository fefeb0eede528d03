/** The order that problems are listed in. */
import type { Problem } from '../combination/problem.ts';

/** By file, the one that was read first, then by line. */
export function inFileOrder(problems: readonly Problem[]): readonly Problem[] {
  const first = problems.length > 0 ? problems[0].file : '';
  return [...problems].sort((a, b) => {
    if (a.file !== b.file) return a.file === first ? -1 : b.file === first ? 1 : a.file < b.file ? -1 : 1;
    return (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0);
  });
}
