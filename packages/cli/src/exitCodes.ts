/** The one table of exit codes: help prints it, commands return its numbers. */

export const EXIT = {
  ok: 0,
  failure: 1,
  usage: 2,
  input: 3,
  file: 4,
  doubtful: 5,
  interrupted: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** What each code means, in the order of the numbers. */
export const EXIT_MEANINGS: readonly (readonly [ExitCode, string])[] = [
  [EXIT.ok, 'done; warnings alone never change this'],
  [EXIT.failure, 'unexpected failure, a fault of the program'],
  [EXIT.usage, 'the command line was not understood'],
  [EXIT.input, 'the combination file or a sheet is invalid'],
  [EXIT.file, 'a file could not be read or written, a queue not reached or lost'],
  [EXIT.doubtful, 'with --strict: a speed did not settle, or a warning stands'],
  [EXIT.interrupted, 'interrupted'],
];
