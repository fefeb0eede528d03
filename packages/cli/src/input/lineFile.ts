/** Files of lines that may be larger than memory: added to, looked through, and read in slices. */
import { closeSync, fstatSync, openSync, readSync, writeSync } from 'node:fs';

/** Read at a time [bytes]. */
const BLOCK = 1 << 20;
const NEW_LINE = 0x0a;

/** In one write, so that of two programs that add to a file at once neither cuts the other's line. */
export function appendFile(path: string, text: string): number {
  const handle = openSync(path, 'a');
  try {
    const bytes = Buffer.from(text);
    for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
    return fstatSync(handle).size;
  } finally {
    closeSync(handle);
  }
}

/** False where the last line does not end; it is handed over all the same. */
export function scanLines(path: string, take: (line: string, at: number, bytes: number) => void): boolean {
  const handle = openSync(path, 'r');
  try {
    const block = Buffer.alloc(BLOCK);
    let begun: Buffer[] = [];
    let at = 0;
    let length = 0;
    const end = (): void => {
      if (length > 0) take(Buffer.concat(begun).toString(), at, length);
      begun = [];
    };
    for (;;) {
      const count = readSync(handle, block, 0, BLOCK, null);
      if (count === 0) break;
      let from = 0;
      while (from < count) {
        const found = block.subarray(0, count).indexOf(NEW_LINE, from);
        const to = found < 0 ? count : found;
        begun.push(Buffer.from(block.subarray(from, to)));
        length += to - from;
        if (found < 0) break;
        end();
        at += length + 1;
        length = 0;
        from = found + 1;
      }
    }
    const ended = length === 0;
    end();
    return ended;
  } finally {
    closeSync(handle);
  }
}

export function readSlice(path: string, at: number, bytes: number): string {
  const handle = openSync(path, 'r');
  try {
    const slice = Buffer.alloc(bytes);
    let read = 0;
    while (read < bytes) {
      const count = readSync(handle, slice, read, bytes - read, at + read);
      if (count === 0) break;
      read += count;
    }
    return slice.subarray(0, read).toString();
  } finally {
    closeSync(handle);
  }
}
