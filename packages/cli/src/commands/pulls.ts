/** `valvetide pulls`: dyno sheets summarised, and measured against measured. */
import type { DynoSheet } from '@valvetide/core';
import { usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Flags, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import {
  objected,
  readDynoFiles,
  STANDARD_OPTION,
  STANDARDS,
  STANDARDS_MEAN,
  standardOf,
} from '../input/readDynoFiles.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { json } from '../render/json.ts';
import { pullsCsv } from '../render/pullsCsv.ts';
import { type PullsResult, pullsText } from '../render/pullsText.ts';
import type { TextOptions } from '../render/textOptions.ts';
import { PULLS_CHARTS, pullsCharts, pullsReport } from '../report/pullsReport.ts';
import { resultOf } from '../results.ts';
import { version } from '../version.ts';
import { type Drawn, deliverDrawn } from './drawnOutput.ts';
import { bandOf, forbidTogether, weightingOf } from './readFlags.ts';
import { UNITS_OPTION, WEIGHTING_OPTION } from './studyOptions.ts';
import { textOptionsOf } from './textOptions.ts';

const MOST_SHEETS = 20;

export const pullsCommand: CommandSpec = {
  name: 'pulls',
  summary: 'summarise dyno sheets, and set them against each other',
  operand: 'SHEET ...',
  mostOperands: MOST_SHEETS,
  examples: [
    ['valvetide pulls before.csv', 'peaks, means and how well the pulls repeat'],
    [
      'valvetide pulls before.csv after.csv --band 4500:7000',
      'what a part did, and whether the pulls can tell',
    ],
    ['valvetide pulls monday.csv tuesday.csv --together', 'several sheets of one state as one'],
    ['valvetide pulls old.csv --standard J1349 --to J607', 'taken to another correction standard'],
  ],
  options: [
    STANDARD_OPTION,
    {
      name: 'to',
      value: 'WHICH',
      choices: STANDARDS,
      choicesMean: STANDARDS_MEAN,
      help: 'take all figures to this standard',
    },
    { name: 'together', help: 'count the pulls of all sheets as pulls of one engine' },
    { name: 'band', value: 'FROM:TO', help: 'speeds that count; without it all of them' },
    WEIGHTING_OPTION,
    { ...UNITS_OPTION, help: 'units of the report; without it those of the first sheet' },
    { name: 'json', help: 'the whole result as JSON' },
    { name: 'csv', help: 'the pulls and their mean by speed as CSV' },
    ...OUTPUT_OPTIONS,
    ...pageOptions(PULLS_CHARTS),
    { name: 'quiet', short: 'q', help: 'the answer line only' },
  ],
  notes: [
    'A sheet is CSV or TSV with columns in any order and units in its headers: rpm, torque (lb-ft), power (hp) and whatever else there is. Pulls are separated by blank lines or numbered in a column. A line such as "# standard: J607" names the correction standard; a sheet without it needs --standard, since J607 and J1349 are 4 to 5 % apart. Barometer, temperature and humidity lines let figures be taken from one standard to another.',
    'Several sheets are each set against the first.',
  ],
  run,
};

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, io, core } = invocation;
  forbidTogether(flags, 'json', 'csv');
  if (operands.length === 0) throw usageFailure('pulls', 'pulls needs a dyno sheet, or - for standard input');
  const read = await readDynoFiles(operands, invocation);
  const files = operands.filter((path) => path !== '-');
  const destination = chooseDestination(files, invocation);
  const beside = chooseSideFiles(files, invocation);
  const sheets = objected(() => sameStandard(read, invocation));
  const options = { band: bandOf(flags), weighting: weightingOf(flags) };
  const result = objected(
    (): PullsResult => ({
      schemaVersion: 1,
      program: { name: 'valvetide', version: version() },
      sheets: sheets.map((sheet) => core.summarisePulls(sheet, options)),
      comparisons: sheets.slice(1).map((sheet) => core.comparePulls(sheets[0], sheet, options)),
    }),
  );
  // Of the first sheet, as it is the one that the others are set against.
  const asked = sheets[0].units;
  deliver(io, destination, rendered(result, sheets, textOptionsOf(invocation, destination, asked), flags));
  const drawn: Drawn = {
    page: (units) => pullsReport(sheets, result, units),
    charts: (units) => pullsCharts(sheets, result, units),
  };
  await deliverDrawn(invocation, beside, drawn, asked);
  return EXIT.ok;
}

/** Under the standard asked for, else that of the first, and as one sheet where asked. */
function sameStandard(read: readonly DynoSheet[], { flags, core }: Invocation): readonly DynoSheet[] {
  const to = standardOf(flags, 'to') ?? read[0].standard;
  const sheets = read.map((sheet) => core.recorrectSheet(sheet, to).sheet);
  return flags.on('together') ? [core.mergeSheets(sheets)] : sheets;
}

function rendered(
  result: PullsResult,
  sheets: readonly DynoSheet[],
  options: TextOptions,
  flags: Flags,
): string {
  if (flags.on('json')) return json(resultOf('pulls', result));
  if (flags.on('csv')) return pullsCsv(sheets, result.sheets);
  return pullsText(result, options);
}
