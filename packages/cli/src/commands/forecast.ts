/** `valvetide forecast`: a combination file to its torque and power curve. */
import type { Combination, Curve } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import { type CommandSpec, type Flags, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { parseRpm } from '../input/parseRpm.ts';
import { readInput } from '../input/readInput.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { progressFor } from '../output/progress.ts';
import {
  chooseSideFiles,
  deliverSideFile,
  REPORT_OPTION,
  type SideFiles,
  SVG_OPTION,
} from '../output/sideFiles.ts';
import { answerLine } from '../render/answerLine.ts';
import { curveCsv } from '../render/csv.ts';
import { fixed } from '../render/fixed.ts';
import { forecastText } from '../render/forecastText.ts';
import { curveJson } from '../render/json.ts';
import { warningLines } from '../render/notes.ts';
import { NO_PAINT, paintFor } from '../render/paint.ts';
import { widthOf } from '../render/width.ts';
import { torqueAndPower } from '../report/charts/torqueAndPower.ts';
import { forecastReport } from '../report/forecastReport.ts';
import { standaloneSvg } from '../report/standaloneSvg.ts';
import { fidelityOf, unitsOf } from './readFlags.ts';

export const forecastCommand: CommandSpec = {
  name: 'forecast',
  summary: 'forecast the torque and power curve of a combination',
  operand: 'FILE',
  examples: [
    ['valvetide forecast engine.yaml', 'the curve over a band chosen from the flow and the bore'],
    ['valvetide forecast engine.yaml --rpm 3000:7500:250', 'over the band you race in'],
    ['valvetide forecast engine.yaml --csv -o engine.csv', 'every figure, one line a speed'],
    ['valvetide forecast engine.yaml --report engine.html', 'charts on a page to print or to send'],
    ['valvetide forecast - --json < engine.yaml', 'from a pipe, for another program'],
  ],
  options: [
    { name: 'rpm', value: 'FROM:TO:STEP', help: 'speeds to forecast; a list with commas works too' },
    {
      name: 'fidelity',
      value: 'WHICH',
      choices: ['representative', 'all'],
      help: 'how many cylinders march',
    },
    { name: 'units', value: 'WHICH', choices: ['trade', 'si'], help: 'units of the report' },
    { name: 'json', help: 'the whole result as JSON' },
    { name: 'csv', help: 'the figures by speed as CSV' },
    ...OUTPUT_OPTIONS,
    REPORT_OPTION,
    SVG_OPTION,
    { name: 'strict', help: 'exit code 5 where a speed did not settle or a warning stands' },
    { name: 'quiet', short: 'q', help: 'the answer line only, no progress' },
    { name: 'verbose', short: 'v', help: 'every column, and the reason for each assumed value' },
  ],
  notes: [
    'Without --rpm the band is chosen from the inlet Mach index and the report says so. Without --fidelity one representative cylinder marches and stands for the others; all marches every cylinder and takes longer. Warnings are part of the result and are repeated on standard error where the result does not go to a terminal as text.',
  ],
  run,
};

async function run(operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  forbidTogether(flags, 'json', 'csv');
  forbidTogether(flags, 'quiet', 'verbose');
  const requested = flags.text('rpm');
  const named = requested === undefined ? undefined : parseRpm(requested);
  const asJson = flags.on('json');
  const input = await readInput(operand, 'forecast', asJson, io, core);
  const destination = chooseDestination(io, flags.text('output'), flags.on('force'), input.files);
  const beside = chooseSideFiles(io, flags, input.files);

  const band = named === undefined ? core.inspectCombination(input.combination).band : undefined;
  const rpm = named ?? parseRpm(`${band?.fromRpm}:${band?.toRpm}:${band?.stepRpm}`);
  const progress = progressFor(io, flags.on('quiet'), flags.on('verbose'));
  const fidelity = fidelityOf(flags);
  let curve: Curve;
  try {
    curve = core.forecast(input.combination, {
      rpm,
      fidelity,
      onProgress: progress.report,
      ...(io.signal === undefined ? {} : { signal: io.signal }),
    });
  } finally {
    progress.clear();
  }
  if (io.signal?.aborted === true)
    throw new CommandFailure(EXIT.interrupted, ['interrupted, nothing written']);

  const toTerminal = !asJson && !flags.on('csv') && destination.path === undefined && io.stdout.isTTY;
  const bandText = band === undefined ? '' : bandLine(rpm, band.reason);
  const text = rendered(
    curve,
    bandText === '' ? '' : `${bandText}; --rpm names another.`,
    flags,
    io,
    toTerminal,
  );
  deliver(io, destination, text);
  await writeBeside(beside, curve, bandText === '' ? '' : `${bandText}.`, input.combination, flags, io, core);
  if (!toTerminal && !flags.on('quiet')) {
    for (const line of warningLines(curve.warnings)) io.stderr.write(`${line}\n`);
  }
  if (destination.path !== undefined && !flags.on('quiet')) {
    io.stderr.write(`${answerLine(curve, unitsOf(flags))}\n`);
  }
  return flags.on('strict') ? strictCode(curve, io) : EXIT.ok;
}

function rendered(curve: Curve, band: string, flags: Flags, io: Io, toTerminal: boolean): string {
  if (flags.on('json')) return curveJson(curve);
  if (flags.on('csv')) return curveCsv(curve);
  return forecastText(curve, band, {
    width: widthOf(io.stdout),
    units: unitsOf(flags),
    paint:
      flags.text('output') === undefined || toTerminal ? paintFor(io.stdout, io.env, flags.color) : NO_PAINT,
    detail: flags.on('quiet') ? 'quiet' : flags.on('verbose') ? 'verbose' : 'normal',
  });
}

/** The drawing program is loaded only where something is to be drawn. */
async function writeBeside(
  { report, svg }: SideFiles,
  curve: Curve,
  band: string,
  combination: Combination,
  flags: Flags,
  io: Io,
  core: Core,
): Promise<void> {
  const units = unitsOf(flags);
  const quiet = flags.on('quiet');
  if (report !== null) {
    const page = await forecastReport(
      {
        curve,
        band,
        inspection: core.inspectCombination(combination),
        fuelOctane: core.octaneIndex(combination.fuel.researchOctane, combination.fuel.motorOctane),
        trace: core.traceCycle(combination, curve.peak.power.rpm),
        valves: core.valveUse(combination),
      },
      units,
    );
    deliverSideFile(io, report, page, quiet);
  }
  if (svg !== null) deliverSideFile(io, svg, await standaloneSvg(torqueAndPower(curve, units)), quiet);
}

function bandLine(rpm: readonly number[], reason: string): string {
  const step = rpm.length > 1 ? ` by ${fixed(rpm[1] - rpm[0])}` : '';
  return `Band ${fixed(rpm[0])} to ${fixed(rpm[rpm.length - 1])} rpm${step}, ${reason}`;
}

function strictCode(curve: Curve, io: Io): ExitCode {
  const unsettled = curve.points.filter((point) => !point.converged).map((point) => fixed(point.rpm));
  if (unsettled.length > 0) io.stderr.write(`strict: not settled at ${unsettled.join(', ')} rpm\n`);
  if (curve.warnings.length > 0) {
    io.stderr.write(
      `strict: ${curve.warnings.length} ${curve.warnings.length === 1 ? 'warning' : 'warnings'}\n`,
    );
  }
  return unsettled.length > 0 || curve.warnings.length > 0 ? EXIT.doubtful : EXIT.ok;
}

function forbidTogether(flags: Flags, one: string, other: string): void {
  if (flags.on(one) && flags.on(other)) {
    throw new CommandFailure(EXIT.usage, [`--${one} and --${other} can't be used together`]);
  }
}
