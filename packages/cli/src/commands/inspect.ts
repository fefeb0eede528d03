/** `valvetide inspect`: what the sheets come to, without a forecast. */
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { readInput } from '../input/readInput.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { inspectionText } from '../render/inspectionText.ts';
import { json } from '../render/json.ts';
import { warningLines } from '../render/notes.ts';
import { resultOf } from '../results.ts';
import { version } from '../version.ts';
import { UNITS_OPTION } from './studyOptions.ts';
import { textOptionsOf } from './textOptions.ts';

export const inspectCommand: CommandSpec = {
  name: 'inspect',
  summary: 'show what the sheets of a combination come to, and what was assumed',
  operand: 'FILE',
  examples: [
    ['valvetide inspect engine.yaml', 'compression, cam events, flow, speeds, assumed values'],
    ['valvetide inspect engine.yaml --json', 'the same for another program'],
  ],
  options: [UNITS_OPTION, { name: 'json', help: 'the whole result as JSON' }, ...OUTPUT_OPTIONS],
  notes: [],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, io, core } = invocation;
  const asJson = flags.on('json');
  const input = await readInput(operands[0], invocation);
  const destination = chooseDestination(input.files, invocation);
  const inspection = core.inspectCombination(input.combination);
  const toFile = destination.path !== undefined;
  const text = asJson
    ? json(
        resultOf('inspect', {
          schemaVersion: 1,
          program: { name: 'valvetide', version: version() },
          ...inspection,
        }),
      )
    : inspectionText(inspection, version(), textOptionsOf(invocation, destination, input.combination.units));
  deliver(io, destination, text);
  if (asJson || toFile || !io.stdout.isTTY) {
    for (const line of warningLines(inspection.warnings)) io.stderr.write(`${line}\n`);
  }
  return EXIT.ok;
}
