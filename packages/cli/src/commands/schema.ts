/** `valvetide schema`: the JSON Schema of combination files, for editors. */
import { type CommandSpec, type Flags, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { json } from '../render/json.ts';

export const schemaCommand: CommandSpec = {
  name: 'schema',
  summary: 'print the JSON Schema of combination files, for editors',
  operand: '',
  examples: [['valvetide schema -o combination.schema.json', 'save it where your editor looks']],
  options: OUTPUT_OPTIONS,
  notes: [],
  run,
};

async function run(_operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  const destination = chooseDestination(io, flags.text('output'), flags.on('force'), []);
  deliver(io, destination, json(core.combinationSchema()));
  return EXIT.ok;
}
