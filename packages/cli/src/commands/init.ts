/** `valvetide init`: a commented combination file to start from. */
import { type CommandSpec, type Flags, OUTPUT_OPTIONS } from '../commandSpec.ts';
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

/** Longest name the file may carry. */
const MOST = 120;

async function run(operand: string | undefined, flags: Flags, io: Io): Promise<ExitCode> {
  const destination = chooseDestination(io, flags.text('output'), flags.on('force'), []);
  const name = operand === undefined || operand.trim() === '' ? 'My engine' : plainShort(operand, MOST);
  deliver(io, destination, starterFile(name));
  if (destination.path !== undefined) {
    const shown = plainShort(destination.path);
    io.stderr.write(`wrote ${shown}; next: valvetide inspect ${shown}\n`);
  }
  return EXIT.ok;
}
