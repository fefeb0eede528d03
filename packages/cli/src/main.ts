/** The command line: arguments to a command, its outcome to an exit code. Prints, but never ends the process. */
import { CommandFailure, misuse } from './commandFailure.ts';
import { COMMANDS } from './commandList.ts';
import type { CommandSpec } from './commandSpec.ts';
import type { Core } from './core.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { faultLines } from './faultLines.ts';
import type { Io } from './io.ts';
import { parseArguments } from './parseArguments.ts';
import { readLead } from './readLead.ts';
import { commandHelp, programHelp } from './render/help.ts';
import { plainShort } from './render/plain.ts';
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
    for (const line of faultLines(error, argv, io)) io.stderr.write(`${line}\n`);
    return EXIT.failure;
  }
}

async function dispatch(argv: readonly string[], io: Io, core?: Core): Promise<ExitCode> {
  // Lines longer than a hundred characters are hard to follow, however wide the terminal.
  const width = Math.min(100, widthOf(io.stdout));
  const { asked, word, rest } = readLead(argv);
  if (asked === 'version') return printVersion(io);
  if (word === undefined || word === 'help' || asked === 'help') {
    const name = word === 'help' ? rest.find((other) => !other.startsWith('-')) : word;
    const topic = name === undefined ? undefined : commandNamed(name);
    io.stdout.write(topic === undefined ? programHelp(COMMANDS, width) : commandHelp(topic, width));
    return EXIT.ok;
  }
  const command = commandNamed(word);
  const { operands, flags } = await parseArguments(command, rest);
  if (flags.on('help')) {
    io.stdout.write(commandHelp(command, width));
    return EXIT.ok;
  }
  if (flags.on('version')) return printVersion(io);
  return command.run({
    command: command.name,
    operands,
    flags,
    io,
    core: core ?? (await import('./core.ts')).CORE,
  });
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
  throw misuse(
    `no command ${plainShort(word)}`,
    near === undefined ? 'valvetide --help lists the commands' : `did you mean ${near}?`,
  );
}
