/** `valvetide forecast`: a combination file to its torque and power curve. */

import type { Combination, Curve, ForecastSpread, HeldBack, PullSummary, SpeedBand } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { parseSpeeds } from '../input/parseRpm.ts';
import { objected, readDynoFiles, STANDARD_OPTION } from '../input/readDynoFiles.ts';
import { forbidInputTwice, type Input, readInput } from '../input/readInput.ts';
import type { Io } from '../io.ts';
import { chooseDestination, type Destination, deliver } from '../output/deliver.ts';
import { forecastProgress } from '../output/progress.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { type AgainstMeasured, againstMeasured } from '../render/againstMeasured.ts';
import { answerLine } from '../render/answerLine.ts';
import type { BesideCurve, CountedBand } from '../render/besideCurve.ts';
import { counted } from '../render/counted.ts';
import { curveCsv } from '../render/curveCsv.ts';
import { fixed } from '../render/fixed.ts';
import { forecastText } from '../render/forecastText.ts';
import type { PumpFuel } from '../render/fuelLine.ts';
import { curveJson } from '../render/json.ts';
import { marched } from '../render/marched.ts';
import { doubtsOf, warningLines, wholeSpeedsLine } from '../render/notes.ts';
import { plain } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';
import { aboutOf } from '../report/about.ts';
import {
  FORECAST_CHARTS,
  type ForecastReport,
  forecastCharts,
  forecastReport,
} from '../report/forecastReport.ts';
import type { JobRunner } from '../workers/jobRunner.ts';
import { forbidBandOutside } from './chooseSpeeds.ts';
import { deliverDrawn } from './drawnOutput.ts';
import { forecastSpeeds } from './forecastSpeeds.ts';
import { bandOf, detailOf, fidelityOf, forbidTwoForms, unitsOf } from './readFlags.ts';
import { FIDELITY_OPTION, RPM_OPTION, UNITS_OPTION, WHERE_OPTIONS } from './studyOptions.ts';
import { textOptionsOf } from './textOptions.ts';
import { forbidIdleWait, runnerOf, withWorkers, workersOf } from './withWorkers.ts';

export const forecastCommand: CommandSpec = {
  name: 'forecast',
  summary: 'forecast the torque and power curve of a combination',
  operand: 'FILE',
  examples: [
    ['valvetide forecast engine.yaml', 'the curve over a band chosen from the flow and the bore'],
    ['valvetide forecast engine.yaml --rpm 3000:7500:250', 'over the speeds you name'],
    ['valvetide forecast engine.yaml --band 4500:7000', 'with its means over the band you race in'],
    ['valvetide forecast engine.yaml --pull pulls.csv', 'compared with what a dyno measured of it'],
    ['valvetide forecast engine.yaml --csv -o engine.csv', 'every figure, one line a speed'],
    ['valvetide forecast engine.yaml --report engine.html', 'charts on a page to print or to send'],
    ['valvetide forecast - --json < engine.yaml', 'from a pipe, for another program'],
  ],
  options: [
    RPM_OPTION,
    {
      name: 'band',
      value: 'FROM:TO',
      help: 'speeds that count: their means are given, and they are shaded in the chart',
    },
    {
      name: 'pull',
      value: 'SHEET',
      many: true,
      help: 'dyno sheet of this very combination, to compare the forecast with',
    },
    STANDARD_OPTION,
    FIDELITY_OPTION,
    { name: 'quick', help: 'the curve alone, without what is not known of it' },
    ...WHERE_OPTIONS,
    UNITS_OPTION,
    { name: 'json', help: 'the whole result as JSON' },
    { name: 'csv', help: 'the figures by speed as CSV' },
    ...OUTPUT_OPTIONS,
    ...pageOptions(FORECAST_CHARTS),
    { name: 'strict', help: 'end with exit code 5 if a speed did not settle or there is a warning' },
    { name: 'quiet', short: 'q', help: 'the answer line only, no progress' },
    { name: 'verbose', short: 'v', help: 'every column, and the reason for each assumed value' },
  ],
  notes: [
    'What is not known of the curve is worked out from up to 23 more forecasts at three speeds each: what the file leaves out, the usual errors of what it states, and the error of the model itself. --quick leaves it out.',
    'Without --rpm the speeds are chosen from the inlet Mach index, wider where --band reaches further, and on past the peak of power; the report says so. Without --fidelity one representative cylinder is computed and stands for the others; all computes every cylinder and takes longer. With --queue speeds and spread are computed by valvetide work. Warnings are part of the result and are repeated on standard error where the result does not go to a terminal as text.',
  ],
  run,
};

/** Where an engine leaves no choice. */
const ALL_MARCHED =
  'Every cylinder was computed: they differ, or what joins them does, so that none stands for another.';

async function run(invocation: Invocation): Promise<ExitCode> {
  const { operands, flags, io, core } = invocation;
  forbidTwoForms(flags);
  forbidIdleWait(flags);
  const named = parseSpeeds(flags.texts('rpm'));
  const input = await readInput(operands[0], invocation);
  const pulls = flags.texts('pull');
  const files = [...input.files, ...pulls.filter((path) => path !== '-')];
  const destination = chooseDestination(files, invocation);
  const sideFiles = chooseSideFiles(files, invocation);
  forbidInputTwice([...operands, ...pulls]);
  const sheet = pulls.length === 0 ? null : await sheetFrom(pulls, input.combination, invocation);

  const counts = bandOf(flags) ?? null;
  const speeds = forecastSpeeds(named, input.combination, counts, core);
  forbidBandOutside(flags, speeds.rpm);
  const curve = await curveOf(input.combination, speeds.rpm, invocation);
  const measured = sheet === null ? null : againstMeasured(curve, sheet.summary, sheet.heldBack);
  if (sheet !== null && measured === null)
    throw new CommandFailure(EXIT.input, [`${plain(sheet.summary.sheet)}: has none of the speeds forecast`]);
  const beside: BesideCurve = {
    counted: counts === null ? null : countedOver(counts, curve, measured, core),
    measured,
    spread: flags.on('quick') || flags.on('quiet') ? null : await spreadOf(curve, input, invocation),
  };

  const fuel = pumpFuel(input.combination, core);
  const asked = input.combination.units;
  const whole = curve.fidelity === fidelityOf(flags) ? wholeSpeedsLine(curve.warnings) : ALL_MARCHED;
  const noteWith = (line: string): string => [whole, line].filter((part) => part !== '').join(' ');
  const note = noteWith(speeds.chosen === '' ? '' : `${speeds.chosen}; --rpm names another.`);
  deliver(io, destination, rendered({ curve, note, fuel, beside, asked }, destination, invocation));
  const report = (): ForecastReport =>
    reportOf(
      curve,
      noteWith(speeds.chosen === '' ? '' : `${speeds.chosen}.`),
      beside,
      input.combination,
      core,
    );
  const drawn = {
    page: (units: UnitSystem) => forecastReport(report(), units, aboutOf(input.source, core)),
    charts: (units: UnitSystem) => forecastCharts(report(), units),
  };
  await deliverDrawn(invocation, sideFiles, drawn, asked);
  sayBeside(curve, destination, asked, invocation);
  return flags.on('strict') ? strictCode(curve, io) : EXIT.ok;
}

/** The curve, with progress; the end of the command where Ctrl-C came first. */
async function curveOf(
  combination: Combination,
  rpm: readonly number[],
  invocation: Invocation,
): Promise<Curve> {
  const { flags, io, core } = invocation;
  const progress = forecastProgress(io, detailOf(flags));
  try {
    const workers = flags.text('queue') === undefined ? workersOf(flags) : null;
    const open = (most: number): Promise<JobRunner> => runnerOf(invocation, most);
    const curve = await core.forecastOn(open, workers, combination, {
      rpm,
      fidelity: fidelityOf(flags),
      onProgress: progress.report,
      signal: io.watchForStop(),
    });
    if (curve?.complete === true) return curve;
  } finally {
    progress.clear();
  }
  throw new CommandFailure(EXIT.interrupted, ['interrupted, nothing written']);
}

/** Warnings where the result does not go to a terminal as text, and the answer where it goes to a file. */
function sayBeside(
  curve: Curve,
  destination: Destination,
  asked: UnitSystem,
  { flags, io }: Invocation,
): void {
  if (flags.on('quiet')) return;
  const toFile = destination.path !== undefined;
  const isText = !flags.on('json') && !flags.on('csv');
  if (!(isText && !toFile && io.stdout.isTTY))
    for (const line of warningLines(curve.warnings)) io.stderr.write(`${line}\n`);
  if (toFile) io.stderr.write(`${answerLine(curve, unitsOf(flags, asked))}\n`);
}

/** What the text of a forecast is made of. */
interface Shown {
  readonly curve: Curve;
  /** Where the speeds come from, and whether every cylinder was computed. */
  readonly note: string;
  readonly fuel: PumpFuel;
  readonly beside: BesideCurve;
  /** Units that the combination asks for. */
  readonly asked: UnitSystem;
}

function rendered(
  { curve, note, fuel, beside, asked }: Shown,
  destination: Destination,
  invocation: Invocation,
): string {
  const { flags } = invocation;
  if (flags.on('json')) return curveJson(curve, beside);
  if (flags.on('csv')) return curveCsv(curve, beside);
  return forecastText(curve, { band: note, fuel }, beside, textOptionsOf(invocation, destination, asked));
}

function reportOf(
  curve: Curve,
  band: string,
  beside: BesideCurve,
  combination: Combination,
  core: Core,
): ForecastReport {
  const traceAt = (rpm: number) => () => core.traceCycle(combination, rpm);
  return {
    curve,
    band,
    ...beside,
    inspection: core.inspectCombination(combination),
    fuel: pumpFuel(combination, core),
    trace: curve.peak === null ? null : traceAt(curve.peak.power.rpm),
    valves: () => core.valveUse(combination),
  };
}

function pumpFuel({ fuel, burn }: Combination, core: Core): PumpFuel {
  return {
    name: fuel.name,
    octane: core.octaneIndex(fuel.researchOctane, fuel.motorOctane),
    knockSetsSpark: burn.timing.mode === 'knock-limited',
  };
}

/** Null where it can't be worked out, or Ctrl-C came first: the curve stands without it. */
async function spreadOf(
  curve: Curve,
  { source }: Input,
  invocation: Invocation,
): Promise<ForecastSpread | null> {
  const { flags, io, core } = invocation;
  const read = core.readDocument(source.text, { file: source.file });
  const pinned = read.ok ? core.pinBaseline(read.value, { sheet: source.sheet }) : read;
  if (!pinned.ok) {
    // An estimate that no file may state can't be moved about: what the file states is far from any engine.
    const why = core.problemLine(pinned.problems[0]);
    if (!flags.on('quiet')) io.stderr.write(`${plain(`warning: no uncertainty is told: ${why}`)}\n`);
    return null;
  }
  return withWorkers(invocation, (control) => core.forecastSpread(pinned.value, curve, control));
}

/** The pulls as one sheet of steady running, at the standard that the forecast is shown by. */
async function sheetFrom(
  pulls: readonly string[],
  combination: Combination,
  invocation: Invocation,
): Promise<{ readonly summary: PullSummary; readonly heldBack: HeldBack | null }> {
  const { core } = invocation;
  const sheets = await readDynoFiles(pulls, invocation);
  return objected(() => {
    const merged = core.recorrectSheet(core.mergeSheets(sheets), combination.correction).sheet;
    const { sheet, heldBack } = core.steadySheet(merged, combination);
    return { summary: core.summarisePulls(sheet), heldBack };
  });
}

/** Means over the band, of the forecast and, where it reaches as far, of the sheet. */
function countedOver(
  band: SpeedBand,
  curve: Curve,
  measured: AgainstMeasured | null,
  core: Core,
): CountedBand | null {
  const settled = marched(curve.points);
  if (
    !settled.some(({ rpm }) => rpm >= band.fromRpm && rpm <= band.toRpm) &&
    settled.length < curve.points.length
  )
    return null;
  const mean = core.bandMean(settled, band);
  const reach = (points: readonly { readonly rpm: number }[]): SpeedBand => ({
    fromRpm: Math.max(band.fromRpm, points[0].rpm),
    toRpm: Math.min(band.toRpm, points[points.length - 1].rpm),
  });
  const own = reach(settled);
  if (measured === null) return { band: own, mean, measured: null };
  // At the speeds of the forecast: a mean over more speeds of a curve that bends is another mean.
  const points = measured.bySpeed.map(({ rpm, measuredNm }) => ({ rpm, torqueNm: measuredNm }));
  const reaches = points[0].rpm <= own.fromRpm && points[points.length - 1].rpm >= own.toRpm;
  return { band: own, mean, measured: reaches ? core.bandMean(points, own) : null };
}

function strictCode(curve: Curve, io: Io): ExitCode {
  const unsettled = curve.points
    .filter(({ status }) => status !== 'settled')
    .map((point) => fixed(point.rpm));
  if (unsettled.length > 0) io.stderr.write(`strict: not settled at ${unsettled.join(', ')} rpm\n`);
  const doubts = doubtsOf(curve.warnings).length;
  if (doubts > 0) io.stderr.write(`strict: ${counted(doubts, 'warning')}\n`);
  return unsettled.length > 0 || doubts > 0 ? EXIT.doubtful : EXIT.ok;
}
