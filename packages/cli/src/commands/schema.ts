/** `valvetide schema`: the JSON Schema of combination, changes and shelf files, for editors. */
import { usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { json } from '../render/json.ts';
import { plainShort } from '../render/plain.ts';

export const schemaCommand: CommandSpec = {
  name: 'schema',
  summary: 'print the JSON Schema of combination, changes or shelf files, for editors',
  operand: '[changes | shelf]',
  operandChoices: ['changes', 'shelf'],
  examples: [
    ['valvetide schema -o combination.schema.json', 'save it where your editor looks'],
    ['valvetide schema changes -o changes.schema.json', 'that of changes files'],
    ['valvetide schema shelf -o shelf.schema.json', 'that of shelf files'],
  ],
  options: OUTPUT_OPTIONS,
  notes: [],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, io, core } = invocation;
  const [operand] = operands;
  const schemas: Readonly<Record<string, () => unknown>> = {
    combination: core.combinationSchema,
    changes: core.changesSchema,
    shelf: core.shelfSchema,
  };
  const what = operand ?? 'combination';
  if (operand === 'combination' || !Object.hasOwn(schemas, what)) {
    const line = `schema takes nothing or one of the words changes and shelf, not ${plainShort(what)}`;
    throw usageFailure('schema', line);
  }
  const destination = chooseDestination([], invocation);
  deliver(io, destination, json(schemas[what]()));
  if (destination.path !== undefined)
    io.stderr.write(`wrote the schema of ${what} files to ${plainShort(destination.path)}\n`);
  return EXIT.ok;
}
