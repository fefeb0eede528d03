/** What the library read or worked out, or the end of the command where it could not. */
import type { Problem, Result } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Core } from '../core.ts';
import { EXIT } from '../exitCodes.ts';
import { problemText } from '../render/problems.ts';

/** The value of a result; fails with all its problems, as JSON lines where the result would be JSON. */
export function sound<Value>(result: Result<Value, Problem, unknown>, asJson: boolean, core: Core): Value {
  if (result.ok) return result.value;
  throw unsound(result.problems, asJson, core);
}

export function unsound(problems: readonly Problem[], asJson: boolean, core: Core): CommandFailure {
  return new CommandFailure(
    EXIT.input,
    problems.map((problem) => problemText(problem, asJson, core)),
  );
}
