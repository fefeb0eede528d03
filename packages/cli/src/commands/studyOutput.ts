/** What every study does with its result: text, JSON or CSV to where it was asked for, and the exit code. */
import type { OperatingPoint } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Flags } from '../commandSpec.ts';
import { EXIT, type ExitCode } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { type Destination, deliver } from '../output/deliver.ts';
import type { SideFiles } from '../output/sideFiles.ts';
import { fixed } from '../render/fixed.ts';
import type { TextOptions } from '../render/forecastText.ts';
import { json } from '../render/json.ts';
import { NO_PAINT, paintFor } from '../render/paint.ts';
import { plain } from '../render/plain.ts';
import type { UnitSystem } from '../render/units.ts';
import { widthOf } from '../render/width.ts';
import { type Drawn, deliverDrawn } from './drawnOutput.ts';
import { unitsOf } from './readFlags.ts';

/** A result and the ways to show it. */
export interface StudyOutput {
  readonly result: object;
  readonly text: (options: TextOptions) => string;
  readonly csv: () => string;
  readonly answer: (units: UnitSystem) => string;
  /** Files asked for beside the result, and what there is to draw in them. */
  readonly beside: SideFiles;
  readonly drawn: Drawn;
  /** Told on standard error where the result does not go to a terminal as text; with --strict they decide the exit code. */
  readonly warnings: readonly string[];
  /** Forecasts done and asked for. */
  readonly done: number;
  readonly total: number;
  /** Speeds that did not settle, in words. */
  readonly unsettled: readonly string[];
}

/** The speeds of a curve that did not settle, in words; nothing where all did. */
export function unsettledSpeeds(
  name: string,
  points: readonly Pick<OperatingPoint, 'rpm' | 'status'>[] | null,
): readonly string[] {
  const speeds = (points ?? []).filter(({ status }) => status !== 'settled').map(({ rpm }) => fixed(rpm));
  return speeds.length === 0 ? [] : [`${name} at ${speeds.join(', ')} rpm`];
}

/** Shows what there is, even after an interrupt. */
export async function deliverStudy(
  flags: Flags,
  io: Io,
  destination: Destination,
  output: StudyOutput,
): Promise<ExitCode> {
  const interrupted = output.done < output.total;
  if (interrupted && output.done === 0)
    throw new CommandFailure(EXIT.interrupted, ['interrupted, nothing written']);
  const units = unitsOf(flags);
  const toFile = destination.path !== undefined;
  const asText = !flags.on('json') && !flags.on('csv');
  deliver(io, destination, rendered(flags, io, output, units, toFile));
  await deliverDrawn(flags, io, output.beside, output.drawn);
  const say = (line: string): void => io.stderr.write(`${plain(line)}\n`);
  if (!(asText && !toFile && io.stdout.isTTY) && !flags.on('quiet'))
    for (const line of output.warnings) say(line);
  if (toFile && !flags.on('quiet')) say(output.answer(units));
  if (interrupted) {
    say(`interrupted: ${output.done} of ${output.total} forecasts done`);
    return EXIT.interrupted;
  }
  if (!flags.on('strict')) return EXIT.ok;
  for (const line of output.unsettled) say(`strict: not settled: ${line}`);
  const { length } = output.warnings;
  if (length > 0) say(`strict: ${length} ${length === 1 ? 'warning' : 'warnings'}`);
  return output.unsettled.length + length > 0 ? EXIT.doubtful : EXIT.ok;
}

function rendered(flags: Flags, io: Io, output: StudyOutput, units: UnitSystem, toFile: boolean): string {
  if (flags.on('json')) return json(output.result);
  if (flags.on('csv')) return output.csv();
  return output.text({
    width: widthOf(io.stdout),
    units,
    paint: toFile ? NO_PAINT : paintFor(io.stdout, io.env, flags.color),
    detail: flags.on('quiet') ? 'quiet' : flags.on('verbose') ? 'verbose' : 'normal',
  });
}
