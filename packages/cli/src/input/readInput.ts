/** A combination file, and the sheets it names, from disk or standard input. */
import { dirname, isAbsolute, join, relative, sep } from 'node:path';
import type { Baseline, Combination, SheetSource } from '@valvetide/core';
import { CommandFailure, misuse } from '../commandFailure.ts';
import type { Invocation } from '../commandSpec.ts';
import { EXIT } from '../exitCodes.ts';
import type { Io } from '../io.ts';
import { reasonOf } from '../output/reasonOf.ts';
import { plainShort } from '../render/plain.ts';
import { sound, unsound } from './sound.ts';

/** A combination as read. */
export interface Input {
  readonly combination: Combination;
  /** What it was read from. */
  readonly source: TextInput;
  /** Every file that was read, so that none of them gets written over. */
  readonly files: readonly string[];
}

/** A combination ready to be changed. */
export interface BaselineInput extends TextInput {
  readonly baseline: Baseline;
}

/** The text of a file, and the sheets beside it. */
export interface TextInput {
  readonly text: string;
  /** Name to show in problems. */
  readonly file: string;
  /** The file, and every sheet as it is read. */
  readonly files: string[];
  readonly sheet: SheetSource;
}

/** Reads and checks everything; fails with all problems at once. */
export async function readInput(operand: string | undefined, invocation: Invocation): Promise<Input> {
  const source = await openInput(operand, invocation.command, invocation.io);
  const { text, file, files, sheet } = source;
  const combination = sound(invocation.core.readCombination(text, { file, sheet }), invocation);
  return { combination, source, files };
}

/** The file that the command names first, like {@link readInput} but with the estimates pinned. */
export async function readBaseline(invocation: Invocation): Promise<BaselineInput> {
  const { command, operands, io, core } = invocation;
  const input = await openInput(operands[0], command, io);
  const { text, file, sheet } = input;
  const read = core.readDocument(text, { file });
  if (read.ok) return { ...input, baseline: sound(core.pinBaseline(read.value, { sheet }), invocation) };
  // A slip in the text hides nothing: reading the combination finds what else is wrong.
  const all = core.readCombination(text, { file, sheet });
  throw unsound(all.ok ? read.problems : all.problems, invocation);
}

/** Refuses to read standard input more than once. */
export function forbidInputTwice(operands: readonly string[]): void {
  if (operands.filter((operand) => operand === '-').length > 1)
    throw misuse('standard input can be read only once: name - once');
}

/** Opens a combination file; sheets are looked for beside it. */
export async function openInput(operand: string | undefined, command: string, io: Io): Promise<TextInput> {
  if (operand === undefined) {
    throw misuse(
      `${command} needs a combination file, or - for standard input`,
      `see valvetide ${command} --help; valvetide init writes a file to start from`,
    );
  }
  const text = operand === '-' ? await readStandardInput(command, io) : readFile(operand, io);
  const files = operand === '-' ? [] : [operand];
  return {
    text,
    file: operand === '-' ? 'standard input' : operand,
    files,
    sheet: sheetsBeside(operand, files, io),
  };
}

/**
 * Sheets in the folder of a file, each noted in `files` once it was read. Each is read once: a study that asks for it again goes on
 * with what it said, whatever became of the file.
 */
export function sheetsBeside(operand: string, files: string[], io: Io): SheetSource {
  const folder = operand === '-' ? '.' : dirname(operand);
  const kept = new Map<string, string | undefined>();
  return (name) => {
    const path = join(folder, name);
    if (kept.has(path)) return kept.get(path);
    if (leadsOut(path, folder, io) && leadsOut(path, '.', io)) {
      const why = 'it lies outside the folder of its file and the one the command runs in';
      throw new CommandFailure(EXIT.file, [`${plainShort(path)}: is not read: ${why}`]);
    }
    if (!files.includes(path)) files.push(path);
    // A missing sheet is a problem of the file that names it, told together with all others.
    const text = readFileIfThere(path, io);
    kept.set(path, text);
    return text;
  };
}

/** Whether a sheet's name, or a link of that name, leads to a file that the folder doesn't hold. */
function leadsOut(path: string, folder: string, io: Io): boolean {
  const inside = relative(io.resolvePath(folder), io.resolvePath(path));
  return isAbsolute(inside) || inside === '..' || inside.startsWith(`..${sep}`);
}

async function readStandardInput(command: string, io: Io): Promise<string> {
  if (io.stdinIsTTY) {
    throw misuse(
      'standard input is a terminal, so there is nothing to read',
      `pipe a combination file in: valvetide ${command} - < engine.yaml`,
    );
  }
  try {
    return await io.readStdin();
  } catch (error) {
    throw new CommandFailure(EXIT.file, [`standard input: can't be read (${reasonOf(error)})`]);
  }
}

export function readFile(path: string, io: Io): string {
  try {
    return io.readFile(path);
  } catch (error) {
    throw unreadable(path, error);
  }
}

/** Undefined where there is no such file. */
function readFileIfThere(path: string, io: Io): string | undefined {
  try {
    return io.readFile(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    throw unreadable(path, error);
  }
}

function unreadable(path: string, error: unknown): CommandFailure {
  return new CommandFailure(EXIT.file, [`${plainShort(path)}: can't be read (${reasonOf(error)})`]);
}
