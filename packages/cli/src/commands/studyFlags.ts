/** Options that every study shares, and what they come to. */
import { availableParallelism } from 'node:os';
import type { Combination, SpeedBand, StudyControl } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import { type Flags, type OptionSpec, OUTPUT_OPTIONS } from '../commandSpec.ts';
import type { Core } from '../core.ts';
import { EXIT } from '../exitCodes.ts';
import { parseRpm, parseSpeeds } from '../input/parseRpm.ts';
import type { Io } from '../io.ts';
import { studyProgress } from '../output/studyProgress.ts';
import { keptRun, type Shard, type Tally } from '../parts/keptRun.ts';
import { PartStore } from '../parts/partStore.ts';
import { queueAddress } from '../queue/queueAddress.ts';
import { fixed } from '../render/fixed.ts';
import { plain, plainShort } from '../render/plain.ts';
import type { JobRunner } from '../workers/jobRunner.ts';
import { keepHeapLean } from '../workers/leanHeap.ts';
import { detailOf, whole } from './readFlags.ts';

/** Which speeds, and which of them count. */
export const SPEED_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'rpm',
    value: 'FROM:TO:STEP',
    many: true,
    help: 'speeds to forecast; a list with commas works too',
  },
  { name: 'band', value: 'FROM:TO', help: 'speeds that count; without it all of them' },
];

export const WEIGHTING_OPTION: OptionSpec = {
  name: 'weighting',
  value: 'WHICH',
  choices: ['speed', 'time'],
  help: 'what counts equally in a mean: each speed, or each moment of an acceleration',
};

/** Where forecasts are done. */
export const WHERE_OPTIONS: readonly OptionSpec[] = [
  { name: 'workers', value: 'N', help: 'threads to compute on; without it one a core' },
  {
    name: 'queue',
    value: 'URL',
    help: 'leave the forecasts to the machines that work on a queue, redis://HOST:PORT; see valvetide work',
  },
  {
    name: 'wait',
    value: 'SECONDS',
    help: 'how long to wait for a queue whose server went away; without it 600',
  },
];

/** How it is computed and shown. */
export const STUDY_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'fidelity',
    value: 'WHICH',
    choices: ['representative', 'all'],
    help: 'compute one cylinder that stands for the others, or all of them',
  },
  ...WHERE_OPTIONS,
  {
    name: 'journal',
    value: 'FILE',
    help: 'keep each forecast in FILE as it is done, and begin where FILE leaves off',
  },
  { name: 'parts', value: 'FILE', many: true, help: 'forecasts done elsewhere, which are not done again' },
  {
    name: 'shard',
    value: 'I/N',
    help: 'do the I-th of N shares of the forecasts and write them to -o, without a result',
  },
  { name: 'units', value: 'WHICH', choices: ['trade', 'si'], help: 'units of the report' },
  { name: 'json', help: 'the whole result as JSON' },
  { name: 'csv', help: 'the figures as CSV' },
  ...OUTPUT_OPTIONS,
  { name: 'strict', help: 'end with exit code 5 if a speed did not settle or there is a warning' },
  { name: 'quiet', short: 'q', help: 'the answer line only, no progress' },
  { name: 'verbose', short: 'v', help: 'every column' },
];

export const STUDY_NOTES: readonly string[] = [
  'Without --rpm the speeds come from --band, and without that from the inlet Mach index of the combination; the report says so. The result is the same on any number of workers. Ctrl-C ends the work and shows what is done; pressed twice it shows nothing.',
];

/** Speeds and band, with a sentence on where they come from where nobody named them. */
export interface ChosenSpeeds {
  readonly rpm: readonly number[];
  readonly band: SpeedBand;
  readonly reason: string;
  /** The same for a terminal, where another band can be asked for. */
  readonly hinted: string;
}

/** Somebody named them. */
const NAMED = { reason: '', hinted: '' } as const;

/** Steps a band is covered in where nobody names the speeds. */
const STEPS = 8;
const ROUND_STEPS = [50, 100, 200, 250, 500, 1000];

export function chooseSpeeds(flags: Flags, combination: Combination, core: Core): ChosenSpeeds {
  const rpm = parseSpeeds(flags.texts('rpm'));
  const bandText = flags.text('band');
  const band = bandText === undefined ? undefined : parseBand(bandText);
  if (rpm !== undefined) {
    const all = { fromRpm: rpm[0], toRpm: rpm[rpm.length - 1] };
    if (band !== undefined && !(band.fromRpm <= all.toRpm && band.toRpm >= all.fromRpm))
      throw usage(`--band ${plainShort(bandText ?? '')}: none of the speeds lies in it`);
    return { rpm, band: band ?? all, ...NAMED };
  }
  if (band !== undefined) return { rpm: speedsOver(band), band, ...NAMED };
  const { fromRpm, toRpm, stepRpm, reason } = core.inspectCombination(combination).band;
  const why = `Band ${fixed(fromRpm)} to ${fixed(toRpm)} rpm, ${reason}`;
  const usual = parseRpm(`${fromRpm}:${toRpm}:${stepRpm}`);
  return {
    rpm: usual,
    band: { fromRpm: usual[0], toRpm: usual[usual.length - 1] },
    reason: `${why}.`,
    hinted: `${why}; --band names another.`,
  };
}

/** `3500:7000`, both included. */
export function parseBand(text: string): SpeedBand {
  const parts = /^\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
  if (parts === null) throw usage(`--band ${plainShort(text)}: write from:to, such as 3500:7000`);
  const [fromRpm, toRpm] = [Number(parts[1]), Number(parts[2])];
  if (!(toRpm >= fromRpm)) throw usage(`--band ${plainShort(text)}: the band must end above its start`);
  if (!(fromRpm >= 200 && toRpm <= 30_000))
    throw usage(`--band ${plainShort(text)}: outside 200 to 30000 rpm`);
  return { fromRpm, toRpm };
}

/** Speeds over a band in round steps, both ends included. */
function speedsOver({ fromRpm, toRpm }: SpeedBand): readonly number[] {
  const width = toRpm - fromRpm;
  if (width === 0) return [fromRpm];
  const step = ROUND_STEPS.find((round) => round * STEPS >= width) ?? ROUND_STEPS[ROUND_STEPS.length - 1];
  // A last step shorter than a quarter is no step of its own.
  const count = Math.ceil(width / step - 0.25);
  return [...Array.from({ length: Math.max(1, count) }, (_, i) => fromRpm + i * step), toRpm];
}

/** `--workers`, or one a core. */
export function workersOf(flags: Flags): number {
  const text = flags.text('workers');
  if (text === undefined) return availableParallelism();
  const workers = Number(text);
  if (!(/^\d{1,3}$/.test(text) && workers >= 1 && workers <= 256))
    throw usage(`--workers ${plainShort(text)}: write how many threads, 1 to 256`);
  return workers;
}

/** `--shard 2/8`, counted from 1; null where not asked for. */
export function shardOf(flags: Flags): Shard | null {
  const text = flags.text('shard');
  if (text === undefined) return null;
  const parts = /^(\d{1,6})\/(\d{1,6})$/.exec(text);
  const [index, count] = [Number(parts?.[1]), Number(parts?.[2])];
  if (!(index >= 1 && index <= count))
    throw usage(`--shard ${plainShort(text)}: write which share of how many, such as 2/8`);
  if (flags.text('journal') !== undefined)
    throw usage('--shard keeps its forecasts in the file of -o: leave --journal out');
  if ((flags.text('output') ?? '-') === '-') throw usage('--shard needs -o FILE for its forecasts');
  return { index: index - 1, count };
}

/** Whether the forecasts are shared or kept, so that nobody waits for all of them at once. */
export function isShared(flags: Flags): boolean {
  return flags.text('queue') !== undefined || isKept(flags);
}

function isKept(flags: Flags): boolean {
  return (
    flags.text('shard') !== undefined ||
    flags.text('journal') !== undefined ||
    flags.texts('parts').length > 0
  );
}

/** Forecasts that were done before, and where new ones are kept; null where neither is asked for. */
function storeOf(flags: Flags, io: Io, shard: Shard | null): PartStore | null {
  if (!isKept(flags)) return null;
  const journal = shard === null ? flags.text('journal') : flags.text('output');
  return new PartStore(io, flags.texts('parts'), journal ?? null);
}

/** Runs a study on the workers asked for, with progress, until it is done or Ctrl-C comes. */
export async function withWorkers<Result>(
  flags: Flags,
  io: Io,
  core: Core,
  study: (control: Required<StudyControl>, tally: Tally | null) => Promise<Result>,
): Promise<Result> {
  const shard = shardOf(flags);
  if (isShared(flags)) keepHeapLean();
  const store = storeOf(flags, io, shard);
  const runner = await runnerOf(flags, io, core);
  const kept = store === null ? null : keptRun(runner.run, store, shard);
  const progress = studyProgress(io, detailOf(flags));
  try {
    const control = { signal: io.watchForStop(), onProgress: progress.report };
    return await study({ ...control, run: kept?.run ?? runner.run }, kept?.tally ?? null);
  } finally {
    progress.clear();
    await runner.close();
  }
}

/** A server that is begun anew, and its machine with it, is back by then [s]. */
const USUAL_WAIT = 600;

/** Refuses `--wait` where there is no server to wait for. */
export function forbidIdleWait(flags: Flags): void {
  if (flags.text('queue') === undefined && flags.text('wait') !== undefined)
    throw usage('--wait is for a server that went away: it needs --queue');
}

/** Threads of this machine, so many at the most, or whoever works on a queue. */
export async function runnerOf(
  flags: Flags,
  io: Io,
  core: Core,
  most: number = Number.POSITIVE_INFINITY,
): Promise<JobRunner> {
  const queue = flags.text('queue');
  const seconds = whole(flags, 'wait', 1, 1_000_000);
  if (queue === undefined) {
    forbidIdleWait(flags);
    return core.openRunner(Math.min(workersOf(flags), most));
  }
  for (const other of ['workers', 'shard'])
    if (flags.text(other) !== undefined)
      throw usage(`--queue and --${other} can't be used together: the work is done by valvetide work`);
  return core.openQueueRunner(queueAddress(queue, io.env), (line) => io.stderr.write(`${plain(line)}\n`), {
    seconds: seconds ?? USUAL_WAIT,
    journal: flags.text('journal') ?? null,
  });
}

/** Refuses two forms of the result, and two amounts of progress. */
export function forbidTwoForms(flags: Flags): void {
  forbidTogether(flags, 'json', 'csv');
  forbidTogether(flags, 'quiet', 'verbose');
}

/** Refuses two switches that contradict each other. */
export function forbidTogether(flags: Flags, one: string, other: string): void {
  if (flags.on(one) && flags.on(other)) throw usage(`--${one} and --${other} can't be used together`);
}

function usage(line: string): CommandFailure {
  return new CommandFailure(EXIT.usage, [line]);
}
