/** What every study does: run, and its result as text, JSON or CSV to where it was asked for, and the exit code. */

import type { OperatingPoint, Problem, Result, StudyControl } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Invocation } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import { sound } from '../input/sound.ts';
import { chooseDestination, type Destination, deliver } from '../output/deliver.ts';
import { chooseSideFiles, type SideFiles } from '../output/sideFiles.ts';
import { counted } from '../render/counted.ts';
import { fixed } from '../render/fixed.ts';
import { json } from '../render/json.ts';
import { plain } from '../render/plain.ts';
import type { TextOptions } from '../render/textOptions.ts';
import type { UnitSystem } from '../render/units.ts';
import { type Drawn, deliverDrawn } from './drawnOutput.ts';
import { unitsOf } from './readFlags.ts';
import { shardOf } from './shares.ts';
import { textOptionsOf } from './textOptions.ts';
import { withWorkers } from './withWorkers.ts';

/** A result and the ways to show it. */
export interface StudyView {
  readonly result: object;
  readonly text: (options: TextOptions) => string;
  readonly csv: () => string;
  readonly answer: (units: UnitSystem) => string;
  readonly drawn: Drawn;
  /** Told on standard error where the result does not go to a terminal as text; with --strict they decide the exit code. */
  readonly warnings: readonly string[];
  /** Speeds that did not settle, in words. */
  readonly unsettled: readonly string[];
  /** Whether nothing was left out by an interrupt. */
  readonly complete: boolean;
  /** Whether there is anything to show after an interrupt. */
  readonly worthShowing: boolean;
}

/** A study from its files to its exit code. */
export interface StudyRun<Value> {
  /** Every file that was read, so that none of them gets written over. */
  readonly files: readonly string[];
  /** Units that the first file asks for. */
  readonly units: UnitSystem;
  readonly ask: (control: Required<StudyControl>) => Promise<Result<Value, Problem>>;
  readonly view: (value: Value) => StudyView;
}

/** Runs a study on the workers asked for and shows what there is, even after an interrupt. */
export async function runStudy<Value>(
  invocation: Invocation,
  { files, units, ask, view }: StudyRun<Value>,
): Promise<ExitCode> {
  const { flags } = invocation;
  if (shardOf(flags) !== null) return runShard(invocation, ask);
  const read = [...files, ...flags.texts('parts')];
  const destination = chooseDestination(read, invocation);
  const beside = chooseSideFiles(read, invocation);
  let count = { done: 0, total: 1 };
  const result = await withWorkers(invocation, ({ onProgress, ...control }) =>
    ask({
      ...control,
      onProgress: (done, total) => {
        count = { done, total };
        onProgress(done, total);
      },
    }),
  );
  const shown = view(sound(result, invocation));
  const { total } = count;
  const done = shown.complete ? total : shown.worthShowing ? Math.min(count.done, total - 1) : 0;
  return deliverStudy(invocation, destination, beside, { ...shown, asked: units, done, total });
}

/** One machine's share: its forecasts stand in the part file as they are done, and there is no result yet. */
async function runShard<Value>(invocation: Invocation, ask: StudyRun<Value>['ask']): Promise<ExitCode> {
  const { flags, io } = invocation;
  const { run, kept, others } = await withWorkers(invocation, async (control, tally) => {
    sound(await ask(control), invocation);
    return tally ?? { run: 0, kept: 0, others: 0 };
  });
  const stopped = io.signal?.aborted === true;
  const rest = others > 0 ? `, ${others} are for other shares` : stopped ? '' : ', none is left for others';
  if (!flags.on('quiet') || stopped)
    io.stderr.write(
      `${stopped ? 'interrupted: ' : ''}share ${flags.text('shard')}: ${run} forecasts done, ${kept} done before${rest}\n`,
    );
  return stopped ? EXIT.interrupted : EXIT.ok;
}

/** A view, and how far the study came. */
interface StudyOutput extends StudyView {
  /** Units that the first file asks for. */
  readonly asked: UnitSystem;
  /** Forecasts done and asked for. */
  readonly done: number;
  readonly total: number;
}

/** The speeds of a curve that did not settle, in words; nothing where all did. */
export function unsettledSpeeds(
  name: string,
  points: readonly Pick<OperatingPoint, 'rpm' | 'status'>[] | null,
): readonly string[] {
  const speeds = (points ?? []).filter(({ status }) => status !== 'settled').map(({ rpm }) => fixed(rpm));
  return speeds.length === 0 ? [] : [`${name} at ${speeds.join(', ')} rpm`];
}

async function deliverStudy(
  invocation: Invocation,
  destination: Destination,
  beside: SideFiles,
  output: StudyOutput,
): Promise<ExitCode> {
  const { flags, io } = invocation;
  const interrupted = output.done < output.total;
  if (interrupted && output.done === 0)
    throw new CommandFailure(EXIT.interrupted, ['interrupted, nothing written']);
  const toFile = destination.path !== undefined;
  const asText = !flags.on('json') && !flags.on('csv');
  deliver(io, destination, rendered(output, destination, invocation));
  await deliverDrawn(invocation, beside, output.drawn, output.asked);
  const say = (line: string): void => io.stderr.write(`${plain(line)}\n`);
  if (!(asText && !toFile && io.stdout.isTTY) && !flags.on('quiet'))
    for (const line of output.warnings) say(line);
  if (toFile && !flags.on('quiet')) say(output.answer(unitsOf(flags, output.asked)));
  if (interrupted) {
    say(`interrupted: ${output.done} of ${output.total} forecasts done`);
    return EXIT.interrupted;
  }
  if (!flags.on('strict')) return EXIT.ok;
  for (const line of output.unsettled) say(`strict: not settled: ${line}`);
  const { length } = output.warnings;
  if (length > 0) say(`strict: ${counted(length, 'warning')}`);
  return output.unsettled.length + length > 0 ? EXIT.doubtful : EXIT.ok;
}

function rendered(output: StudyOutput, destination: Destination, invocation: Invocation): string {
  const { flags } = invocation;
  if (flags.on('json')) return json(output.result);
  if (flags.on('csv')) return output.csv();
  return output.text(textOptionsOf(invocation, destination, output.asked));
}
