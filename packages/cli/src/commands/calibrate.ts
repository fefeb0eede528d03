/** `valvetide calibrate`: a combination's physical knobs fitted to a pull, or to peak figures. */

import { dirname, isAbsolute, join, relative } from 'node:path';
import type { Baseline, CalibrationResult, CalibrationTarget } from '@valvetide/core';
import { CommandFailure, misuse, usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { parsePeak } from '../input/parsePeak.ts';
import { objected, readDynoFiles, STANDARD_OPTION, standardOf } from '../input/readDynoFiles.ts';
import { readBaseline } from '../input/readInput.ts';
import { sound } from '../input/sound.ts';
import { chooseDestination, type Destination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { calibrationCsv } from '../render/calibrationCsv.ts';
import { calibrationAnswer, calibrationText } from '../render/calibrationText.ts';
import { json } from '../render/json.ts';
import { plain } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';
import { aboutOf } from '../report/about.ts';
import { CALIBRATION_CHARTS, calibrationCharts, calibrationReport } from '../report/calibrationReport.ts';
import { resultOf } from '../results.ts';
import { version } from '../version.ts';
import { deliverDrawn } from './drawnOutput.ts';
import { KNOBS_OPTION, knobNames } from './knobFlags.ts';
import { forbidTogether } from './readFlags.ts';
import { UNITS_OPTION, WHERE_OPTIONS } from './studyOptions.ts';
import { textOptionsOf } from './textOptions.ts';
import { withWorkers } from './withWorkers.ts';

export const calibrateCommand: CommandSpec = {
  name: 'calibrate',
  summary: 'fit a combination to a dyno sheet by a few physical knobs',
  operand: 'FILE',
  examples: [
    [
      'valvetide calibrate engine.yaml --pull pulls.csv -o fitted.yaml',
      'writes the combination with what was learnt',
    ],
    ['valvetide calibrate engine.yaml --pull pulls.csv', 'the same report, nothing written'],
    [
      'valvetide calibrate engine.yaml --peak-torque "377 lb-ft @ 3800" --peak-power "336 hp @ 5300" --standard J607',
      'where only the peaks are known',
    ],
  ],
  options: [
    {
      name: 'pull',
      value: 'SHEET',
      many: true,
      help: 'dyno sheet of this very combination; give it again for more',
    },
    {
      name: 'peak-torque',
      value: 'FIGURE',
      help: 'peak torque, with its speed where known: "377 lb-ft @ 3800"',
    },
    { name: 'peak-power', value: 'FIGURE', help: 'peak power, likewise: "336 hp @ 5300"' },
    STANDARD_OPTION,
    {
      name: 'wheels',
      help: 'the figures are those at the driven wheels; a sheet that says so needs no such word',
    },
    KNOBS_OPTION,
    {
      name: 'accept',
      help: 'accept the fit even where the sheets disagree: with -o it is written, marked as doubtful with the reason',
    },
    ...WHERE_OPTIONS,
    UNITS_OPTION,
    { name: 'json', help: 'the report as JSON' },
    { name: 'csv', help: 'what was measured and both forecasts of it as CSV' },
    {
      ...OUTPUT_OPTIONS[0],
      help: 'write the calibrated combination to FILE; the report stays on standard output',
    },
    OUTPUT_OPTIONS[1],
    ...pageOptions(CALIBRATION_CHARTS),
    { name: 'quiet', short: 'q', help: 'the answer line only, no progress' },
  ],
  notes: [
    'Each knob starts from what the file says or from its estimate, with that spread: a knob moves only as far as the sheet has reason to move it, and never past 20 % (twice the spread where an estimate is wider), the dyno not past 10 %. Where no such move fits, the sheets disagree: the report names causes that would explain it, and nothing is written (exit code 3) without --accept. There is no correction by speed: what no knob explains stays visible as an error.',
    'The knob dyno is the level of this dyno, what it shows over what the engine gives: 1 +/- 0.03 before the fit, 0.87 +/- 0.05 where it brakes the wheels. It moves no forecast.',
    'The file that -o names keeps every remark of the old one, and finds the same sheets.',
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, io, core } = invocation;
  forbidTogether(flags, 'json', 'csv');
  const input = await readBaseline(invocation);
  const { baseline } = input;
  const knobs = knobNames(invocation);
  const measured = await targetFrom(baseline, invocation);
  const target = flags.on('wheels') ? { ...measured, atWheels: true as const } : measured;
  const files = [...input.files, ...flags.texts('pull')];
  const destination = chooseDestination(files, invocation);
  const beside = chooseSideFiles(files, invocation);
  const done = await withWorkers(invocation, (control) =>
    core.calibrate(baseline, target, { knobs, accept: flags.on('accept'), ...control }),
  );
  const { result } = sound(done, invocation);
  if (result.outcome === 'incomplete')
    throw new CommandFailure(EXIT.interrupted, ['interrupted before the fit was found, nothing written']);
  const toFile = destination.path !== undefined && result.calibration !== null;
  if (toFile) {
    const text = await core.calibratedText(
      input.text,
      baseline.stated,
      result,
      movedNames(operands[0] ?? '-', destination),
    );
    deliver(io, destination, text);
  }
  io.stdout.write(
    report(result, toFile ? (destination.path ?? '') : '', baseline.combination.units, invocation),
  );
  await deliverDrawn(
    invocation,
    beside,
    {
      page: (units) => calibrationReport(result, version(), units, aboutOf(input, core)),
      charts: (units) => calibrationCharts(result, units),
    },
    baseline.combination.units,
  );
  return result.calibration === null ? EXIT.input : EXIT.ok;
}

/** The report, which stays on standard output; `path`: where the calibrated combination went, empty for nowhere. */
function report(result: CalibrationResult, path: string, asked: UnitSystem, invocation: Invocation): string {
  const { flags } = invocation;
  if (flags.on('json')) return json(resultOf('calibrate', result));
  if (flags.on('csv')) return calibrationCsv(result);
  if (flags.on('quiet')) return `${calibrationAnswer(result)}\n`;
  const written =
    path !== ''
      ? `Written to ${plain(path)}.`
      : result.calibration === null
        ? 'Nothing written: --accept with -o writes it all the same, marked.'
        : 'Nothing written: -o names a file for the calibrated combination.';
  return calibrationText(result, written, textOptionsOf(invocation, { path: undefined }, asked));
}

/** What the flags say was measured of the engine. */
async function targetFrom({ combination }: Baseline, invocation: Invocation): Promise<CalibrationTarget> {
  const { flags, core } = invocation;
  const pulls = flags.texts('pull');
  const torque = flags.text('peak-torque');
  const power = flags.text('peak-power');
  if (pulls.length > 0) {
    if (torque !== undefined || power !== undefined)
      throw misuse('give a pull or peak figures, not both: a pull has its own peaks');
    const sheets = await readDynoFiles(pulls, invocation);
    return objected(() => core.sheetTarget(core.mergeSheets(sheets)));
  }
  if (torque === undefined && power === undefined) {
    throw usageFailure('calibrate', 'calibrate needs --pull SHEET, or --peak-torque and --peak-power');
  }
  const peaks = {
    torque: torque === undefined ? null : named('torqueNm', parsePeak('torque', torque)),
    power: power === undefined ? null : named('powerKw', parsePeak('power', power)),
  };
  const standard = standardOf(flags, 'standard');
  if (standard === undefined) {
    throw misuse(
      'peak figures need --standard: J607 (60 F, 29.92 inHg dry) shows 4 to 5 % more than J1349 (77 F, 29.23 inHg dry)',
    );
  }
  const { band } = core.inspectCombination(combination);
  return objected(() => core.peakTarget({ ...peaks, standard }, band));
}

function named<Key extends string>(
  key: Key,
  { value, rpm }: { value: number; rpm: number | null },
): Record<Key, number> & { rpm: number | null } {
  return { [key]: value, rpm } as Record<Key, number> & { rpm: number | null };
}

/** Names of the sheets as seen from the new file's folder. */
function movedNames(operand: string, destination: Destination): (sheet: string) => string {
  const from = operand === '-' ? '.' : dirname(operand);
  const to = dirname(destination.path ?? '.');
  return (sheet) => {
    if (isAbsolute(sheet) || from === to) return sheet;
    return relative(to, join(from, sheet)).replaceAll('\\', '/');
  };
}
