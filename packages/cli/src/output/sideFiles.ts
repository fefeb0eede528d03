/** Files asked for beside the result: a report, a drawing. */
import { misuse } from '../commandFailure.ts';
import type { Invocation, OptionSpec } from '../commandSpec.ts';
import type { Io } from '../io.ts';
import type { Detail } from '../render/detail.ts';
import { plainShort } from '../render/plain.ts';
import { chooseFile, type Destination, deliver } from './deliver.ts';

/** A report, or a chart of it by itself, and which: `charts` by the names they have on the page, the usual one first. */
export function pageOptions(charts: readonly string[]): readonly OptionSpec[] {
  return [
    {
      name: 'report',
      value: 'FILE',
      help: 'also write a report with charts, one HTML page that needs nothing else',
    },
    { name: 'svg', value: 'FILE', help: 'also write one chart as a drawing, SVG' },
    {
      name: 'chart',
      value: 'WHICH',
      choices: charts,
      help: 'the chart that --svg draws, the first where left out',
    },
  ];
}

export interface SideFiles {
  readonly report: Destination | null;
  readonly svg: Destination | null;
}

/** Refuses, before any work is done, files that can't be written or must not be, and one file asked for twice. */
export function chooseSideFiles(
  inputs: readonly string[],
  asked: Pick<Invocation, 'flags' | 'io'>,
): SideFiles {
  const { flags, io } = asked;
  const taken = new Map<string, string>();
  const output = flags.text('output');
  if (output !== undefined && output !== '-') taken.set(io.resolvePath(output), '-o');
  const choose = (name: 'report' | 'svg'): Destination | null => {
    const path = flags.text(name);
    if (path === undefined) return null;
    if (path === '' || path === '-') throw misuse(`--${name} needs the name of a file`);
    const target = io.resolvePath(path);
    const other = taken.get(target);
    if (other !== undefined) throw misuse(`${other} and --${name} both name ${plainShort(path)}`);
    taken.set(target, `--${name}`);
    return chooseFile(path, inputs, asked);
  };
  if (flags.text('chart') !== undefined && flags.text('svg') === undefined)
    throw misuse('--chart chooses the chart that --svg FILE draws: give --svg FILE too');
  return { report: choose('report'), svg: choose('svg') };
}

/** Writes a side file and says so. */
export function deliverSideFile(io: Io, destination: Destination, text: string, detail: Detail): void {
  deliver(io, destination, text);
  if (detail !== 'quiet') io.stderr.write(`wrote ${plainShort(destination.path ?? '')}\n`);
}
