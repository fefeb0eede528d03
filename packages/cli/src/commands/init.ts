/** `valvetide init`: a commented combination file to start from. */
import { dirname, isAbsolute, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { plainShort } from '../render/plain.ts';
import { starterFile } from '../starterFile.ts';

export const initCommand: CommandSpec = {
  name: 'init',
  summary: 'print a commented combination file to start from',
  operand: '[NAME]',
  examples: [
    ['valvetide init -o engine.yaml', 'an invented V8; change what differs'],
    ['valvetide init "Spring build" -o spring.yaml', 'with a name of its own'],
  ],
  options: OUTPUT_OPTIONS,
  notes: ['NAME is the name of the combination inside the file, not the name of the file.'],
  run,
};

/** The installed schema, seen from where the file is written, or from here where it is printed. */
function schemaFrom(io: Io, path: string | undefined): string {
  const folder = path === undefined ? io.resolvePath('.') : dirname(io.resolvePath(path));
  const seen = relative(folder, io.schemaFile).replaceAll('\\', '/');
  // From another drive there is no way but the whole path; an editor takes it as an address.
  return isAbsolute(seen) ? pathToFileURL(seen).href : seen.startsWith('.') ? seen : `./${seen}`;
}

/** Longest name the file may carry. */
const MOST = 120;

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, io } = invocation;
  const [operand] = operands;
  const destination = chooseDestination([], invocation);
  const name = operand === undefined || operand.trim() === '' ? 'My engine' : plainShort(operand, MOST);
  deliver(io, destination, starterFile(name, schemaFrom(io, destination.path)));
  if (destination.path !== undefined) {
    const shown = plainShort(destination.path);
    io.stderr.write(`wrote ${shown}; next: valvetide inspect ${shown}\n`);
  }
  return EXIT.ok;
}
