/** The one way a command gives up: an exit code and the lines for standard error. */
import type { ExitCode } from './exitCodes.ts';

export class CommandFailure extends Error {
  readonly exitCode: ExitCode;
  /** Ready to print, one per line, already free of control characters. */
  readonly lines: readonly string[];

  constructor(exitCode: ExitCode, lines: readonly string[]) {
    super(lines.join('\n'));
    this.name = 'CommandFailure';
    this.exitCode = exitCode;
    this.lines = lines;
  }
}
