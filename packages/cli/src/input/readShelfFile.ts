/** A shelf file, and the sheets that its parts name. */
import type { SheetSource, Shelf } from '@valvetide/core';
import type { Invocation } from '../commandSpec.ts';
import { openInput, sheetsBeside } from './readInput.ts';
import { sound } from './sound.ts';

/** A shelf as read. */
export interface ShelfInput {
  readonly shelf: Shelf;
  /** Every file that was read. */
  readonly files: readonly string[];
  /** Text of the sheets that parts name: beside the combination file, or else beside the shelf. */
  readonly sheet: SheetSource;
}

/** Fails with all problems of the shelf at once. */
export async function readShelfFile(
  path: string,
  files: readonly string[],
  invocation: Invocation,
): Promise<ShelfInput> {
  const { command, operands, io, core } = invocation;
  const input = await openInput(path, command, io);
  const shelf = sound(core.readShelf(input.text, { file: input.file }), invocation);
  const all = [...files, ...input.files];
  const beside = sheetsBeside(operands[0], all, io);
  const besideShelf = sheetsBeside(path, all, io);
  return { shelf, files: all, sheet: (name) => beside(name) ?? besideShelf(name) };
}
