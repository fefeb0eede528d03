/** The command line: arguments to a command, its outcome to an exit code. Prints, but never ends the process. */
import { CommandFailure } from './commandFailure.ts';
import { COMMANDS } from './commandList.ts';
import type { CommandSpec } from './commandSpec.ts';
import type { Core } from './core.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Io } from './io.ts';
import { parseArguments } from './parseArguments.ts';
import { commandHelp, programHelp } from './render/help.ts';
import { plain, plainShort } from './render/plain.ts';
import { widthOf } from './render/width.ts';
import { suggest } from './suggest.ts';
import { version } from './version.ts';

/**
 * Runs one command line (without the program's own name) and returns its exit code. The library is loaded when a command
 * runs, so that help, the version and a mistyped line are there at once.
 */
export async function main(argv: readonly string[], io: Io, core?: Core): Promise<ExitCode> {
  try {
    return await dispatch(argv, io, core);
  } catch (error) {
    if (error instanceof CommandFailure) {
      for (const line of error.lines) io.stderr.write(`${line}\n`);
      return error.exitCode;
    }
    if (io.signal?.aborted === true) {
      io.stderr.write('interrupted, nothing written\n');
      return EXIT.interrupted;
    }
    const message = error instanceof Error ? error.message : String(error);
    io.stderr.write(`unexpected failure, a fault of the program: ${plain(message)}\n`);
    return EXIT.failure;
  }
}

async function dispatch([word, ...rest]: readonly string[], io: Io, core?: Core): Promise<ExitCode> {
  // Lines longer than a hundred characters are hard to follow, however wide the terminal.
  const width = Math.min(100, widthOf(io.stdout));
  if (word === undefined || word === 'help' || word === '--help' || word === '-h') {
    const topic = word === 'help' && rest[0] !== undefined ? commandNamed(rest[0]) : undefined;
    io.stdout.write(topic === undefined ? programHelp(COMMANDS, width) : commandHelp(topic, width));
    return EXIT.ok;
  }
  if (word === '--version') return printVersion(io);
  if (word.startsWith('-')) {
    throw new CommandFailure(EXIT.usage, ['name a command first', 'valvetide --help lists them']);
  }
  const command = commandNamed(word);
  const { operands, flags } = await parseArguments(command, rest);
  if (flags.on('help')) {
    io.stdout.write(commandHelp(command, width));
    return EXIT.ok;
  }
  if (flags.on('version')) return printVersion(io);
  return command.run(operands[0], flags, io, core ?? (await import('./core.ts')).CORE, operands);
}

function printVersion(io: Io): ExitCode {
  io.stdout.write(`valvetide ${version()}\n`);
  return EXIT.ok;
}

function commandNamed(word: string): CommandSpec {
  const command = COMMANDS.find(({ name }) => name === word);
  if (command !== undefined) return command;
  const names = COMMANDS.map(({ name }) => name);
  const near = suggest(word, names);
  throw new CommandFailure(EXIT.usage, [
    `no command ${plainShort(word)}`,
    near === undefined ? 'valvetide --help lists the commands' : `did you mean ${near}?`,
  ]);
}
