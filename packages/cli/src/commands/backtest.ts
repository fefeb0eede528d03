/** `valvetide backtest`: a change whose outcome was measured, forecast from the sheet before it. */

import type { BacktestResult, Change, DynoSheet } from '@valvetide/core';
import { CommandFailure, usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Flags, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { readChangesFile } from '../input/readChangesFile.ts';
import { objected, readDynoFiles, STANDARD_OPTION } from '../input/readDynoFiles.ts';
import { type BaselineInput, readBaseline } from '../input/readInput.ts';
import { sound } from '../input/sound.ts';
import type { Io } from '../io.ts';
import { chooseDestination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { backtestAnswer, backtestText } from '../render/backtestText.ts';
import { backtestCsv } from '../render/calibrationCsv.ts';
import { json } from '../render/json.ts';
import { NO_PAINT, paintFor } from '../render/paint.ts';
import { plainShort } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';
import { widthOf } from '../render/width.ts';
import { aboutOf } from '../report/about.ts';
import { BACKTEST_CHARTS, backtestCharts, backtestReport } from '../report/backtestReport.ts';
import { resultOf } from '../results.ts';
import { KNOBS_OPTION, knobNames } from './calibrate.ts';
import { deliverDrawn } from './drawnOutput.ts';
import { unitsOf, weightingOf } from './readFlags.ts';
import { forbidTogether, parseBand, WEIGHTING_OPTION, WHERE_OPTIONS, withWorkers } from './studyFlags.ts';

export const backtestCommand: CommandSpec = {
  name: 'backtest',
  summary: 'forecast a change whose outcome was measured',
  operand: 'FILE',
  examples: [
    [
      'valvetide backtest engine.yaml --change chamber.volume="112 cc" --before before.csv --after milled.csv',
      'a field as it was after the change',
    ],
    [
      'valvetide backtest engine.yaml --changes changes.yaml --change "Bigger carburetor" --before a.csv --after b.csv',
      'a change from a file, by its name',
    ],
  ],
  options: [
    { name: 'before', value: 'SHEET', many: true, help: 'dyno sheet of the combination as the file has it' },
    { name: 'after', value: 'SHEET', many: true, help: 'dyno sheet with the change' },
    {
      name: 'change',
      value: 'FIELD=VALUE',
      many: true,
      help: 'what was changed; with --changes the name of a change',
    },
    { name: 'changes', value: 'FILE', help: 'file of changes; without --change all of them together' },
    STANDARD_OPTION,
    KNOBS_OPTION,
    { name: 'band', value: 'FROM:TO', help: 'speeds that count; without it all that both sheets have' },
    WEIGHTING_OPTION,
    ...WHERE_OPTIONS,
    { name: 'units', value: 'WHICH', choices: ['trade', 'si'], help: 'units of the report' },
    { name: 'json', help: 'the whole result as JSON' },
    { name: 'csv', help: 'both sheets and their forecasts by speed as CSV' },
    ...OUTPUT_OPTIONS,
    ...pageOptions(BACKTEST_CHARTS),
    { name: 'quiet', short: 'q', help: 'the answer line only, no progress' },
  ],
  notes: [
    'The combination is calibrated on the sheet before, then the change is forecast and held to the sheet after. The sheet after is used for the comparison alone. An error below the least difference that the pulls can show is as good as a dyno can tell.',
  ],
  run,
};

async function run(operand: string | undefined, flags: Flags, io: Io, core: Core): Promise<ExitCode> {
  forbidTogether(flags, 'json', 'csv');
  const invocation: Invocation = { command: 'backtest', flags, io, core };
  for (const name of ['before', 'after']) {
    if (flags.texts(name).length === 0) throw usageFailure('backtest', `backtest needs --${name} SHEET`);
  }
  const input = await readBaseline(operand, invocation);
  const { baseline } = input;
  const { changes, sheet } = await changesFrom(operand ?? '-', input, invocation);
  const side = async (name: string): Promise<DynoSheet> => {
    const sheets = await readDynoFiles(flags.texts(name), invocation);
    return objected(() => core.mergeSheets(sheets));
  };
  const before = await side('before');
  const after = await side('after');
  const bandText = flags.text('band');
  const band = bandText === undefined ? undefined : parseBand(bandText);
  const weighting = weightingOf(flags);
  objected(() =>
    core.comparePulls(before, core.recorrectSheet(after, before.standard).sheet, { band, weighting }),
  );
  const knobs = knobNames(flags, core);
  const files = [...input.files, ...flags.texts('before'), ...flags.texts('after')];
  const destination = chooseDestination(io, flags, files);
  const beside = chooseSideFiles(io, flags, files);
  const done = await withWorkers(flags, io, core, (control) =>
    core.backtest(baseline, { changes, before, after }, { sheet, knobs, band, weighting, ...control }),
  );
  const result = sound(done, invocation);
  if (result.outcome === 'incomplete')
    throw new CommandFailure(EXIT.interrupted, [
      'interrupted before the change was forecast, nothing written',
    ]);
  deliver(io, destination, rendered(result, baseline.combination.units, flags, io));
  await deliverDrawn(
    flags,
    io,
    beside,
    {
      page: (units) => backtestReport(result, units, aboutOf(input, core)),
      charts: (units) => backtestCharts(result, units),
    },
    baseline.combination.units,
  );
  if (destination.path !== undefined && !flags.on('quiet')) io.stderr.write(`${backtestAnswer(result)}\n`);
  return result.outcome === 'forecast' ? EXIT.ok : EXIT.input;
}

function rendered(result: BacktestResult, asked: UnitSystem, flags: Flags, io: Io): string {
  if (flags.on('json')) return json(resultOf('backtest', result));
  if (flags.on('csv')) return backtestCsv(result);
  if (flags.on('quiet')) return `${backtestAnswer(result)}\n`;
  return backtestText(result, {
    width: widthOf(io.stdout),
    units: unitsOf(flags, asked),
    paint: flags.text('output') === undefined ? paintFor(io.stdout, io.env, flags.color) : NO_PAINT,
    detail: 'normal',
  });
}

interface ChangesFrom {
  readonly changes: readonly Change[];
  readonly sheet: (name: string) => string | undefined;
}

async function changesFrom(
  operand: string,
  input: BaselineInput,
  invocation: Invocation,
): Promise<ChangesFrom> {
  const { flags } = invocation;
  const names = flags.texts('change');
  const path = flags.text('changes');
  if (path === undefined) return { changes: [fromFields(names, invocation)], sheet: () => undefined };
  const { changes: all, sheet } = await readChangesFile(path, operand, input, invocation);
  const known = all.map(({ change }) => change);
  const unknown = names.find((name) => !known.some((change) => change.name === name));
  if (unknown !== undefined) {
    throw new CommandFailure(EXIT.usage, [
      `no change ${plainShort(unknown)} in ${plainShort(path)}`,
      `it has ${known.map((change) => change.name).join(', ')}`,
    ]);
  }
  return {
    changes: names.length === 0 ? known : known.filter((change) => names.includes(change.name)),
    sheet,
  };
}

/** `FIELD=VALUE` several times, as one change. */
function fromFields(texts: readonly string[], invocation: Invocation): Change {
  if (texts.length === 0)
    throw usageFailure('backtest', 'backtest needs --change FIELD=VALUE, or --changes FILE');
  const set = Object.fromEntries(
    texts.map((text) => {
      const parts = /^\s*([\w.]+)\s*=\s*(.+?)\s*$/s.exec(text);
      if (parts === null)
        throw new CommandFailure(EXIT.usage, [
          `--change ${plainShort(text)}: write FIELD=VALUE, such as chamber.compression=10.5`,
        ]);
      const [, field, value] = parts;
      return [field, fieldValue(value)];
    }),
  );
  const read = invocation.core.readChanges(JSON.stringify({ changes: [{ name: texts.join(', '), set }] }), {
    file: '--change',
  });
  return sound(read, invocation)[0];
}

/** A plain number, yes or no, or else a quantity or a word. */
function fieldValue(text: string): number | boolean | string {
  if (/^[+-]?\d+(\.\d+)?$/.test(text)) return Number(text);
  return text === 'true' || text === 'false' ? text === 'true' : text;
}
