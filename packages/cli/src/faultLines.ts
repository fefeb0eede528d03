/** What is said of a fault of the program: what happened, where its stack is kept, and where to report it. */
import type { Io } from './io.ts';
import { plain, withoutPasswords } from './render/plain.ts';
import { faultAddress, version } from './version.ts';

export function faultLines(error: unknown, argv: readonly string[], io: Io): readonly string[] {
  const message = error instanceof Error ? error.message : String(error);
  const stack = error instanceof Error ? (error.stack ?? message) : message;
  const kept = keep(withoutPasswords(`valvetide ${version()}\n${JSON.stringify(argv)}\n${stack}\n`), io);
  return [
    `unexpected failure, a fault of the program: ${plain(message)}`,
    `${kept === undefined ? 'Please report it' : `its traces are in ${plain(kept)}; please report them`} at ${faultAddress()}`,
  ];
}

/** A disk that takes nothing must not hide the fault itself. */
function keep(text: string, io: Io): string | undefined {
  try {
    return io.keepFault(text);
  } catch {
    return undefined;
  }
}
