/** `valvetide pressures`: pressures measured by crank angle, laid over those of the forecast. */
import type { PressureComparison, PressureSheet, Problem } from '@valvetide/core';
import { usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { forbidInputTwice, openInput, readInput } from '../input/readInput.ts';
import { sound, unsound } from '../input/sound.ts';
import { chooseDestination, type Destination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { json } from '../render/json.ts';
import { pressuresCsv } from '../render/pressuresCsv.ts';
import { pressuresText } from '../render/pressuresText.ts';
import type { UnitSystem } from '../render/units.ts';
import { PRESSURE_CHARTS, pressureCharts, pressuresReport } from '../report/pressuresReport.ts';
import { resultOf } from '../results.ts';
import { deliverDrawn } from './drawnOutput.ts';
import { forbidTogether } from './readFlags.ts';
import { UNITS_OPTION } from './studyOptions.ts';
import { textOptionsOf } from './textOptions.ts';

export const pressuresCommand: CommandSpec = {
  name: 'pressures',
  summary: 'lay measured pressures by crank angle over the forecast',
  operand: 'FILE',
  examples: [
    [
      'valvetide pressures engine.yaml --trace sensors.csv',
      'means, waves and their timing beside the forecast',
    ],
    [
      'valvetide pressures engine.yaml --trace sensors.csv --report waves.html',
      'both curves on a page to print or to send',
    ],
    ['valvetide pressures engine.yaml --trace sensors.csv --csv', 'every angle, one line each'],
  ],
  options: [
    { name: 'trace', value: 'SHEET', many: true, help: 'sheet of pressures, one cycle at one speed' },
    UNITS_OPTION,
    { name: 'json', help: 'the whole result as JSON' },
    { name: 'csv', help: 'both pressures by crank angle as CSV' },
    ...OUTPUT_OPTIONS,
    ...pageOptions(PRESSURE_CHARTS),
    { name: 'quiet', short: 'q', help: 'the answer line only' },
  ],
  notes: [
    'A sheet is CSV or TSV: a column "crank deg" and one for each sensor, such as "intake kPa", "exhaust psi" or "cylinder bar". Lines above it say the rest: "# speed: 5500 rpm", "# zero: firing top centre" (or gas-exchange), "# pressures: absolute" (or gauge), "# exhaust from valve: 12 in", "# cylinder: 1". What is missing is asked for. "# offset: 0.1 bar" raises all pressures, "# pegged: 1.02 bar at 180 deg" sets a cylinder sensor that knows no level of its own.',
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, io, core } = invocation;
  forbidTogether(flags, 'json', 'csv');
  const names = flags.texts('trace');
  if (names.length === 0) throw usageFailure('pressures', 'pressures needs what was measured: --trace SHEET');
  forbidInputTwice([...operands, ...names]);
  const input = await readInput(operands[0], invocation);
  const sheets = await readSheets(names, invocation);
  const files = [...input.files, ...names.filter((path) => path !== '-')];
  const destination = chooseDestination(files, invocation);
  const beside = chooseSideFiles(files, invocation);
  const compared = sound(core.comparePressures(input.combination, sheets), invocation);
  const asked = input.combination.units;
  deliver(io, destination, rendered(compared, destination, asked, invocation));
  await deliverDrawn(
    invocation,
    beside,
    {
      page: (units) => pressuresReport(compared, units),
      charts: (units) => pressureCharts(compared, units),
    },
    asked,
  );
  return EXIT.ok;
}

/** The sheets in the order given, or the problems of all of them at once. */
async function readSheets(
  names: readonly string[],
  invocation: Invocation,
): Promise<readonly PressureSheet[]> {
  const { command, io, core } = invocation;
  const problems: Problem[] = [];
  const sheets: PressureSheet[] = [];
  for (const path of names) {
    const { text, file } = await openInput(path, command, io);
    const read = core.readPressureSheet(text, { name: file });
    if (read.ok) sheets.push(read.value);
    else problems.push(...read.problems);
  }
  if (problems.length > 0) throw unsound(problems, invocation);
  return sheets;
}

function rendered(
  compared: PressureComparison,
  destination: Destination,
  asked: UnitSystem,
  invocation: Invocation,
): string {
  const { flags } = invocation;
  if (flags.on('json')) return json(resultOf('pressures', compared));
  if (flags.on('csv')) return pressuresCsv(compared);
  return pressuresText(compared, textOptionsOf(invocation, destination, asked));
}
