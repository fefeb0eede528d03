/** A changes file, each change tried on the baseline before anything is computed. */
import type { Baseline, Change, Combination, Problem } from '@valvetide/core';
import type { Invocation } from '../commandSpec.ts';
import { problemText } from '../render/problems.ts';
import { type BaselineInput, openInput, sheetsBeside } from './readInput.ts';
import { unsound } from './sound.ts';

/** A change and the combination it makes of the baseline. */
export interface ChangedCombination {
  readonly change: Change;
  readonly combination: Combination;
}

/** Changes that each fit the baseline. */
export interface ChangesInput {
  readonly baseline: Baseline;
  readonly changes: readonly ChangedCombination[];
  /** Every file that was read. */
  readonly files: readonly string[];
  /** Text of the sheets that the changes name: beside the combination file, or else beside the changes file. */
  readonly sheet: (name: string) => string | undefined;
}

/**
 * Reads changes of the command's baseline; fails with the problems of all of them at once. Changes without effect are left out and
 * told on standard error, as long as one is left.
 */
export async function readChangesFile(
  path: string,
  { baseline, files }: BaselineInput,
  invocation: Invocation,
): Promise<ChangesInput> {
  const { command, operands, flags, io, core } = invocation;
  const input = await openInput(path, command, io);
  const read = core.readChanges(input.text, { file: input.file });
  const all = [...files, ...input.files];
  const beside = sheetsBeside(operands[0], all, io);
  const besideChanges = sheetsBeside(path, all, io);
  const sheet = (name: string): string | undefined => beside(name) ?? besideChanges(name);
  const problems: Problem[] = read.ok ? [] : [...read.problems];
  const idle: Problem[] = [];
  const sound = read.ok ? read.value : (read.partial ?? []);
  const changes = sound.flatMap((change): ChangedCombination[] => {
    const applied = core.applyChanges(baseline, [change], { sheet });
    if (applied.ok) return [{ change, combination: applied.value }];
    (applied.problems.every(({ code }) => code === 'no-effect') ? idle : problems).push(...applied.problems);
    return [];
  });
  if (problems.length > 0 || changes.length === 0) throw unsound(inOrder([...problems, ...idle]), invocation);
  // A change that does nothing is left out and told; the others are worth their answer.
  for (const problem of idle) {
    const leftOut = { ...problem, message: `${problem.message}; left out` };
    io.stderr.write(`${problemText(leftOut, flags.on('json') ? 'json' : 'line', core)}\n`);
  }
  return { baseline, changes, files: all, sheet };
}

/** By line. */
function inOrder(problems: readonly Problem[]): readonly Problem[] {
  return [...problems].sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
}
