/** Text of a file on disk: regular files only, and none larger than any sheet. */
import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { textOf } from './textOf.ts';

/** Largest input read [bytes], from disk or standard input; the longest logger's sheet takes half. */
export const MOST_BYTES = 16_000_000;

/**
 * The text of a file. Pipes and devices are refused, since they may never come or never end.
 *
 * @throws an Error with a `code`: the system's, `NOT_REGULAR` or `TOO_LARGE`
 */
export function readRegularFile(path: string): string {
  // Without waiting for a writer, where the path is a pipe.
  const handle = openSync(path, constants.O_RDONLY | constants.O_NONBLOCK);
  try {
    const found = fstatSync(handle);
    if (found.isDirectory()) throw coded('EISDIR');
    if (!found.isFile()) throw coded('NOT_REGULAR');
    if (found.size > MOST_BYTES) throw coded('TOO_LARGE');
    return readUpTo(handle, found.size);
  } finally {
    closeSync(handle);
  }
}

/** Files may say that they are empty and are not, or grow while they are read. */
function readUpTo(handle: number, size: number): string {
  const chunks: Buffer[] = [];
  let total = 0;
  for (;;) {
    const chunk = Buffer.allocUnsafe(total === 0 ? size + 1 : 65_536);
    const count = readSync(handle, chunk);
    if (count === 0) return textOf(Buffer.concat(chunks));
    total += count;
    if (total > MOST_BYTES) throw coded('TOO_LARGE');
    chunks.push(chunk.subarray(0, count));
  }
}

/** Standard input as text, as much of it as a sheet may have. */
export async function readStream(stream: AsyncIterable<Uint8Array | string>): Promise<string> {
  const chunks: Buffer[] = [];
  let total = 0;
  for await (const piece of stream) {
    const chunk = Buffer.from(piece);
    total += chunk.length;
    if (total > MOST_BYTES) throw coded('TOO_LARGE');
    chunks.push(chunk);
  }
  return textOf(Buffer.concat(chunks));
}

function coded(code: string): Error {
  return Object.assign(new Error(code), { code });
}
