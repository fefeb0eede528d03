/** What a command made of a hostile input, and what is wrong with that. */

import { processorTime } from '../../../core/test/support/processorTime.ts';
import type { Core } from '../../src/core.ts';
import { EXIT } from '../../src/exitCodes.ts';
import { main } from '../../src/main.ts';
import { world } from '../fakeIo.ts';

/** Most processor time of an answer [s], and over that of the sound file on a slow machine: what a ranking takes is far above a file's reading. */
const MOST_SECONDS = 2;
const MOST = 200;

/** Anything a terminal would obey, apart from the line feed that ends a line. */
const OBEYED = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

/** Interrupted: as cores end that are stopped before their first forecast. */
const ALLOWED: ReadonlySet<number> = new Set([
  EXIT.ok,
  EXIT.usage,
  EXIT.input,
  EXIT.file,
  EXIT.doubtful,
  EXIT.interrupted,
]);

interface Asked {
  readonly words: readonly string[];
  readonly files: Readonly<Record<string, string>>;
  readonly stdin?: string;
  /** Files that may be read. */
  readonly readable: ReadonlySet<string>;
}

/** An answer with everything that is wrong with it: nothing where it is as it should be. */
export interface Answer {
  readonly code: number;
  readonly faults: readonly string[];
  readonly said: string;
  /** Processor time [s]. */
  readonly took: number;
}

/** @param usual - processor time that a sound file takes in this run [s] */
export async function faultsOf(
  { words, files, stdin, readable }: Asked,
  core: Core,
  usual = Number.POSITIVE_INFINITY,
): Promise<Answer> {
  const w = world({ files, columns: 100, ...(stdin === undefined ? {} : { stdin }) });
  const read: string[] = [];
  const io = {
    ...w.io,
    readFile: (path: string) => {
      read.push(path);
      return w.io.readFile(path);
    },
  };
  const begun = process.cpuUsage();
  const code = await main(words, io, core);
  const took = processorTime(begun);
  const faults: string[] = [];
  if (!ALLOWED.has(code)) faults.push(`exit ${code}`);
  if (took > Math.max(MOST_SECONDS, MOST * usual))
    faults.push(`took ${took.toFixed(1)} s, a sound file ${usual.toFixed(3)} s`);
  if (/\bat .*\.[jt]s:\d+|node:internal|fault of the program/u.test(w.err()))
    faults.push('a stack, or a fault of the program');
  if (OBEYED.test(w.err())) faults.push('control characters on standard error');
  if (code !== EXIT.ok && code !== EXIT.doubtful && w.err().trim() === '') faults.push('no word of why');
  for (const path of read) if (!readable.has(path)) faults.push(`read ${path}`);
  if (code === EXIT.input && words.includes('--json'))
    faults.push(...problemFaults(w.err(), Object.values(files).join('')));
  if (
    Object.hasOwn(Object.prototype, 'polluted') ||
    ({} as Record<string, unknown>)['compression'] !== undefined
  )
    faults.push('a prototype was written to');
  const said = w.err();
  return { code, said, took, faults: faults.map((fault) => `${fault}: ${said.slice(0, 300)}`) };
}

/** Lines of a refusal in JSON: each with file, code and message, and a place or a field. */
function problemFaults(text: string, given: string): readonly string[] {
  // Words of our own making, where they are not the mutant's.
  const slips = ['undefined', 'NaN', '[object'].filter((word) => !given.includes(word));
  const lines = text.trim().split('\n');
  if (lines.length > 400) return [`${lines.length} lines of problems`];
  return lines.flatMap((line) => {
    try {
      const { file, code, message, line: at, hint } = JSON.parse(line);
      const sound =
        typeof file === 'string' &&
        file !== '' &&
        /^[a-z][a-z0-9-]*$/u.test(code) &&
        typeof message === 'string' &&
        message !== '' &&
        !slips.some((word) => message.includes(word)) &&
        (at === null || at >= 1) &&
        (hint === null || typeof hint === 'string');
      return sound ? [] : [`a problem without its parts, ${line}`];
    } catch {
      return [`a line that is no problem, ${line.slice(0, 200)}`];
    }
  });
}
