/** What the library read or worked out, or the end of the command where it could not. */
import type { Problem, Result } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Invocation } from '../commandSpec.ts';
import { EXIT } from '../exitCodes.ts';
import { problemText } from '../render/problems.ts';

/** The value of a result; fails with all its problems. */
export function sound<Value>(
  result: Result<Value, Problem, unknown>,
  invocation: Pick<Invocation, 'flags' | 'core'>,
): Value {
  if (result.ok) return result.value;
  throw unsound(result.problems, invocation);
}

/** The end of a command that its input has problems for, as JSON lines where the result would be JSON. */
export function unsound(
  problems: readonly Problem[],
  { flags, core }: Pick<Invocation, 'flags' | 'core'>,
): CommandFailure {
  const form = flags.on('json') ? 'json' : 'line';
  return new CommandFailure(
    EXIT.input,
    problems.map((problem) => problemText(problem, form, core)),
  );
}
