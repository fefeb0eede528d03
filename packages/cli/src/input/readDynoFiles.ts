/** Dyno sheets from disk, each checked; the problems of all of them at once. */
import type { DynoSheet, Problem } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Flags, Invocation, OptionSpec } from '../commandSpec.ts';
import { EXIT } from '../exitCodes.ts';
import { forbidInputTwice, openInput } from './readInput.ts';
import { unsound } from './sound.ts';

/** Standards a sheet may refer to, as they are written on the command line. */
export const STANDARDS = ['J607', 'J1349', 'none'] as const;

/** Which standard is meant by a word that sheets have for one. */
export const STANDARDS_MEAN =
  'J607 is 60 F, 29.92 inHg dry: sheets call it STP or STD. J1349 is 77 F, 29.23 inHg dry, 4 to 5 % lower: ISO, ECE and JIS refer to the same air. Sheets with SAE alone mean either: ask who ran the dyno. DIN is 1 to 2 % below J607. none: as observed';

export const STANDARD_OPTION: OptionSpec = {
  name: 'standard',
  value: 'WHICH',
  choices: STANDARDS,
  choicesMean: STANDARDS_MEAN,
  help: 'correction standard of sheets that name none',
};

/** The standard that an option names. */
export function standardOf(flags: Flags, option: string): (typeof STANDARDS)[number] | undefined {
  return STANDARDS.find((standard) => standard === flags.text(option));
}

/** Reads them in the order given; `-` is standard input, once. */
export async function readDynoFiles(
  paths: readonly string[],
  invocation: Invocation,
): Promise<readonly DynoSheet[]> {
  const { command, flags, io, core } = invocation;
  forbidInputTwice(paths);
  const problems: Problem[] = [];
  const sheets: DynoSheet[] = [];
  for (const path of paths) {
    const { text, file } = await openInput(path, command, io);
    const read = core.readDynoSheet(text, { name: file, standard: standardOf(flags, 'standard') });
    if (read.ok) sheets.push(read.value);
    else problems.push(...read.problems);
  }
  if (problems.length > 0) throw unsound(problems, invocation);
  return sheets;
}

/** A library's objection to what the user asked of sheets, such as two without a speed in common, in its own words. */
export function objected<Result>(work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    if (error instanceof Error && error.name === 'DomainError')
      throw new CommandFailure(EXIT.input, [error.message]);
    throw error;
  }
}
