/** `valvetide pressures`: pressures measured by crank angle, laid over those of the forecast. */
import type { PressureComparison, PressureSheet, Problem } from '@valvetide/core';
import { usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Flags, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { forbidInputTwice, openInput, readInput } from '../input/readInput.ts';
import { sound, unsound } from '../input/sound.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { json } from '../render/json.ts';
import { NO_PAINT, paintFor } from '../render/paint.ts';
import { pressuresCsv } from '../render/pressuresCsv.ts';
import { pressuresText } from '../render/pressuresText.ts';
import type { UnitSystem } from '../render/units.ts';
import { widthOf } from '../render/width.ts';
import { PRESSURE_CHARTS, pressureCharts, pressuresReport } from '../report/pressuresReport.ts';
import { resultOf } from '../results.ts';
import { deliverDrawn } from './drawnOutput.ts';
import { detailOf, unitsOf } from './readFlags.ts';
import { forbidTogether } from './studyFlags.ts';

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
    { name: 'units', value: 'WHICH', choices: ['trade', 'si'], help: 'units of the report' },
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

async function run(operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  forbidTogether(flags, 'json', 'csv');
  const names = flags.texts('trace');
  if (names.length === 0) throw usageFailure('pressures', 'pressures needs what was measured: --trace SHEET');
  const invocation: Invocation = { command: 'pressures', flags, io, core };
  forbidInputTwice([operand ?? '-', ...names]);
  const input = await readInput(operand, invocation);
  const sheets = await readSheets(names, invocation);
  const files = [...input.files, ...names.filter((path) => path !== '-')];
  const destination = chooseDestination(io, flags, files);
  const beside = chooseSideFiles(io, flags, files);
  const compared = sound(core.comparePressures(input.combination, sheets), invocation);
  const asked = input.combination.units;
  deliver(io, destination, rendered(compared, flags, io, asked));
  await deliverDrawn(
    flags,
    io,
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

function rendered(compared: PressureComparison, flags: Flags, io: Io, asked: UnitSystem): string {
  if (flags.on('json')) return json(resultOf('pressures', compared));
  if (flags.on('csv')) return pressuresCsv(compared);
  return pressuresText(compared, {
    width: widthOf(io.stdout),
    units: unitsOf(flags, asked),
    paint: flags.text('output') === undefined ? paintFor(io.stdout, io.env, flags.color) : NO_PAINT,
    detail: detailOf(flags),
  });
}
