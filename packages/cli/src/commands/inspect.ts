/** `valvetide inspect`: what the sheets come to, without a forecast. */
import { type CommandSpec, type Flags, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { readInput } from '../input/readInput.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { inspectionText } from '../render/inspectionText.ts';
import { json } from '../render/json.ts';
import { warningLines } from '../render/notes.ts';
import { NO_PAINT, paintFor } from '../render/paint.ts';
import { widthOf } from '../render/width.ts';
import { resultOf } from '../results.ts';
import { version } from '../version.ts';
import { unitsOf } from './readFlags.ts';

export const inspectCommand: CommandSpec = {
  name: 'inspect',
  summary: 'show what the sheets of a combination come to, and what was assumed',
  operand: 'FILE',
  examples: [
    ['valvetide inspect engine.yaml', 'compression, cam events, flow, speeds, assumed values'],
    ['valvetide inspect engine.yaml --json', 'the same for another program'],
  ],
  options: [
    { name: 'units', value: 'WHICH', choices: ['trade', 'si'], help: 'units of the report' },
    { name: 'json', help: 'the whole result as JSON' },
    ...OUTPUT_OPTIONS,
  ],
  notes: [],
  run,
};

async function run(operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  const asJson = flags.on('json');
  const input = await readInput(operand, { command: 'inspect', flags, io, core });
  const destination = chooseDestination(io, flags, input.files);
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
    : inspectionText(inspection, {
        width: widthOf(io.stdout),
        units: unitsOf(flags, input.combination.units),
        paint: toFile ? NO_PAINT : paintFor(io.stdout, io.env, flags.color),
        version: version(),
      });
  deliver(io, destination, text);
  if (asJson || toFile || !io.stdout.isTTY) {
    for (const line of warningLines(inspection.warnings)) io.stderr.write(`${line}\n`);
  }
  return EXIT.ok;
}
