/** Where a result goes: standard output, or a file that was asked for and is free. */
import { CommandFailure, misuse } from '../commandFailure.ts';
import type { Invocation } from '../commandSpec.ts';
import { EXIT } from '../exitCodes.ts';
import type { Existing, Io } from '../io.ts';
import { plainShort } from '../render/plain.ts';
import { reasonOf } from './reasonOf.ts';

export interface Destination {
  /** Path of the file; undefined: standard output. */
  readonly path: string | undefined;
  readonly existing: Existing;
}

/** What tells where a file may go. */
type Asked = Pick<Invocation, 'flags' | 'io'>;

/** Where `-o` wants the result; refuses, before any work is done, what can't be written or must not be: none of the `inputs`. */
export function chooseDestination(inputs: readonly string[], asked: Asked): Destination {
  const output = asked.flags.text('output');
  if (output === undefined || output === '-') return { path: undefined, existing: 'keep' };
  if (output === '') throw misuse('-o needs the name of a file');
  return chooseFile(output, inputs, asked);
}

/** The same of a file by its name. */
export function chooseFile(output: string, inputs: readonly string[], { flags, io }: Asked): Destination {
  const existing: Existing = flags.on('force') ? 'replace' : 'keep';
  const shown = plainShort(output);
  const target = io.resolvePath(output);
  if (inputs.some((input) => io.resolvePath(input) === target)) {
    throw new CommandFailure(EXIT.file, [`${shown}: is read by this command, so it is not written to`]);
  }
  const kind = look(io, output);
  if (kind === 'directory') throw new CommandFailure(EXIT.file, [`${shown}: is a directory`]);
  if (kind === 'file' && existing === 'keep') {
    throw new CommandFailure(EXIT.file, [`${shown}: already there and left alone (--force replaces it)`]);
  }
  try {
    io.mayWriteAt(output);
  } catch (error) {
    throw new CommandFailure(EXIT.file, [`${shown}: can't be written (${reasonOf(error)})`]);
  }
  return { path: output, existing };
}

/** What could not be written though it could be when the work began is kept elsewhere: it may have taken hours. */
export function deliver(io: Io, destination: Destination, text: string): void {
  if (destination.path === undefined) {
    io.stdout.write(text);
    return;
  }
  try {
    io.writeFile(destination.path, text, destination.existing);
  } catch (error) {
    const kept = keptElsewhere(io, destination.path, text);
    throw new CommandFailure(EXIT.file, [
      `${plainShort(destination.path)}: can't be written (${reasonOf(error)})`,
      ...(kept === null ? [] : [`the result is kept in ${kept}`]),
    ]);
  }
}

function keptElsewhere(io: Io, name: string, text: string): string | null {
  try {
    return io.keepResult(name, text);
  } catch {
    return null;
  }
}

function look(io: Io, path: string): ReturnType<Io['kindOf']> {
  try {
    return io.kindOf(path);
  } catch (error) {
    throw new CommandFailure(EXIT.file, [`${plainShort(path)}: can't be reached (${reasonOf(error)})`]);
  }
}
