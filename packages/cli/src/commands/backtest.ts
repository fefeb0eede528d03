/** `valvetide backtest`: a change whose outcome was measured, forecast from the sheet before it. */

import type { BacktestResult, Change, DynoSheet } from '@valvetide/core';
import { CommandFailure, misuse, usageFailure } from '../commandFailure.ts';
import { type CommandSpec, type Invocation, OUTPUT_OPTIONS } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { readChangesFile } from '../input/readChangesFile.ts';
import { objected, readDynoFiles, STANDARD_OPTION } from '../input/readDynoFiles.ts';
import { type BaselineInput, readBaseline } from '../input/readInput.ts';
import { sound } from '../input/sound.ts';
import { chooseDestination, type Destination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, pageOptions } from '../output/sideFiles.ts';
import { backtestAnswer, backtestText } from '../render/backtestText.ts';
import { backtestCsv } from '../render/calibrationCsv.ts';
import { json } from '../render/json.ts';
import { plainShort } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';
import { aboutOf } from '../report/about.ts';
import { BACKTEST_CHARTS, backtestCharts, backtestReport } from '../report/backtestReport.ts';
import { resultOf } from '../results.ts';
import { deliverDrawn } from './drawnOutput.ts';
import { KNOBS_OPTION, knobNames } from './knobFlags.ts';
import { bandOf, forbidTogether, weightingOf } from './readFlags.ts';
import { UNITS_OPTION, WEIGHTING_OPTION, WHERE_OPTIONS } from './studyOptions.ts';
import { textOptionsOf } from './textOptions.ts';
import { withWorkers } from './withWorkers.ts';

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
    UNITS_OPTION,
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

async function run(invocation: Invocation): Promise<ExitCode> {
  const { flags, io, core } = invocation;
  forbidTogether(flags, 'json', 'csv');
  for (const name of ['before', 'after']) {
    if (flags.texts(name).length === 0) throw usageFailure('backtest', `backtest needs --${name} SHEET`);
  }
  const input = await readBaseline(invocation);
  const { baseline } = input;
  const { changes, sheet } = await changesFrom(input, invocation);
  const side = async (name: string): Promise<DynoSheet> => {
    const sheets = await readDynoFiles(flags.texts(name), invocation);
    return objected(() => core.mergeSheets(sheets));
  };
  const before = await side('before');
  const after = await side('after');
  const band = bandOf(flags);
  const weighting = weightingOf(flags);
  objected(() =>
    core.comparePulls(before, core.recorrectSheet(after, before.standard).sheet, { band, weighting }),
  );
  const knobs = knobNames(invocation);
  const files = [...input.files, ...flags.texts('before'), ...flags.texts('after')];
  const destination = chooseDestination(files, invocation);
  const beside = chooseSideFiles(files, invocation);
  const done = await withWorkers(invocation, (control) =>
    core.backtest(baseline, { changes, before, after }, { sheet, knobs, band, weighting, ...control }),
  );
  const result = sound(done, invocation);
  if (result.outcome === 'incomplete')
    throw new CommandFailure(EXIT.interrupted, [
      'interrupted before the change was forecast, nothing written',
    ]);
  deliver(io, destination, rendered(result, destination, baseline.combination.units, invocation));
  await deliverDrawn(
    invocation,
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

function rendered(
  result: BacktestResult,
  destination: Destination,
  asked: UnitSystem,
  invocation: Invocation,
): string {
  const { flags } = invocation;
  if (flags.on('json')) return json(resultOf('backtest', result));
  if (flags.on('csv')) return backtestCsv(result);
  if (flags.on('quiet')) return `${backtestAnswer(result)}\n`;
  return backtestText(result, textOptionsOf(invocation, destination, asked));
}

interface ChangesFrom {
  readonly changes: readonly Change[];
  readonly sheet: (name: string) => string | undefined;
}

/** What `--change` and `--changes` say was changed. */
async function changesFrom(input: BaselineInput, invocation: Invocation): Promise<ChangesFrom> {
  const { flags } = invocation;
  const names = flags.texts('change');
  const path = flags.text('changes');
  if (path === undefined) return { changes: [fromFields(names, invocation)], sheet: () => undefined };
  const { changes: all, sheet } = await readChangesFile(path, input, invocation);
  const known = all.map(({ change }) => change);
  const unknown = names.find((name) => !known.some((change) => change.name === name));
  if (unknown !== undefined) {
    throw misuse(
      `no change ${plainShort(unknown)} in ${plainShort(path)}`,
      `it has ${known.map((change) => change.name).join(', ')}`,
    );
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
        throw misuse(`--change ${plainShort(text)}: write FIELD=VALUE, such as chamber.compression=10.5`);
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
