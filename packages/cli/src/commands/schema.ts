/** `valvetide schema`: the JSON Schema of combination files and of changes files, for editors. */
import { CommandFailure } from '../commandFailure.ts';
import { type CommandSpec, type Flags, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { json } from '../render/json.ts';
import { plainShort } from '../render/plain.ts';

export const schemaCommand: CommandSpec = {
  name: 'schema',
  summary: 'print the JSON Schema of combination or changes files, for editors',
  operand: '[changes]',
  operandChoices: ['changes'],
  examples: [
    ['valvetide schema -o combination.schema.json', 'save it where your editor looks'],
    ['valvetide schema changes -o changes.schema.json', 'that of changes files'],
  ],
  options: OUTPUT_OPTIONS,
  notes: [],
  run,
};

async function run(operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  if (operand !== undefined && operand !== 'changes') {
    const line = `schema takes nothing or the word changes, not ${plainShort(operand)}`;
    throw new CommandFailure(EXIT.usage, [line, 'see valvetide schema --help']);
  }
  const destination = chooseDestination(io, flags.text('output'), flags.on('force'), []);
  deliver(io, destination, json(operand === undefined ? core.combinationSchema() : core.changesSchema()));
  if (destination.path !== undefined) {
    const what = operand === undefined ? 'combination' : 'changes';
    io.stderr.write(`wrote the schema of ${what} files to ${plainShort(destination.path)}\n`);
  }
  return EXIT.ok;
}
