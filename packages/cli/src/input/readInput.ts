/** A combination file, and the sheets it names, from disk or standard input. */
import { dirname, isAbsolute, join } from 'node:path';
import type { Combination } from '@valvetide/core';
import { CommandFailure } from '../commandFailure.ts';
import type { Core } from '../core.ts';
import { EXIT } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { reasonOf } from '../output/reasonOf.ts';
import { plainShort } from '../render/plain.ts';
import { problemJson, problemLine } from '../render/problems.ts';

export interface Input {
  readonly combination: Combination;
  /** Every file that was read, so that none of them gets written over. */
  readonly files: readonly string[];
}

/** Reads and checks everything; fails with all problems at once, as JSON lines where the result would be JSON. */
export async function readInput(
  operand: string | undefined,
  command: string,
  asJson: boolean,
  io: Io,
  core: Core,
): Promise<Input> {
  if (operand === undefined) {
    throw new CommandFailure(EXIT.usage, [
      `${command} needs a combination file, or - for standard input`,
      `see valvetide ${command} --help; valvetide init writes a file to start from`,
    ]);
  }
  const text = operand === '-' ? await readStandardInput(command, io) : readFile(operand, io);
  const files = operand === '-' ? [] : [operand];
  const folder = operand === '-' ? '.' : dirname(operand);
  const result = core.readCombination(text, {
    file: operand === '-' ? 'standard input' : operand,
    sheet: (name) => {
      const path = isAbsolute(name) ? name : join(folder, name);
      files.push(path);
      // A missing sheet is a problem of the combination file, told together with all others.
      return readFile(path, io, true);
    },
  });
  if (!result.ok)
    throw new CommandFailure(EXIT.input, result.problems.map(asJson ? problemJson : problemLine));
  return { combination: result.combination, files };
}

async function readStandardInput(command: string, io: Io): Promise<string> {
  if (io.stdinIsTTY) {
    throw new CommandFailure(EXIT.usage, [
      'standard input is a terminal, so there is nothing to read',
      `pipe a combination file in: valvetide ${command} - < engine.yaml`,
    ]);
  }
  return io.readStdin();
}

function readFile(path: string, io: Io): string;
function readFile(path: string, io: Io, mayBeMissing: true): string | undefined;
function readFile(path: string, io: Io, mayBeMissing = false): string | undefined {
  try {
    return io.readFile(path);
  } catch (error) {
    const missing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    if (missing && mayBeMissing) return undefined;
    throw new CommandFailure(EXIT.file, [`${plainShort(path)}: can't be read (${reasonOf(error)})`]);
  }
}
