/** The one way a command gives up: an exit code and the lines for standard error. */
import { EXIT, type ExitCode } from './exitCodes.ts';

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

/** A command line that is not understood: why, and what to do about it where a second line says so. */
export function misuse(...lines: readonly string[]): CommandFailure {
  return new CommandFailure(EXIT.usage, lines);
}

/** A command called wrongly: why, and what to do about it, which is to read its help where nothing nearer is known. */
export function usageFailure(
  command: string,
  line: string,
  hint = `see valvetide ${command} --help`,
): CommandFailure {
  return misuse(line, hint);
}
