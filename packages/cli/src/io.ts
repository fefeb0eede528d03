/** All that the command line touches of the outside world, so that tests can stand in for it. */

export interface Sink {
  write(text: string): void;
  readonly isTTY: boolean;
  /** Width in characters; undefined where there is no terminal. */
  readonly columns: number | undefined;
}

/** What becomes of a file that is already there. */
export type Existing = 'keep' | 'replace';

export interface Io {
  readonly stdout: Sink;
  readonly stderr: Sink;
  readonly stdinIsTTY: boolean;
  /** Everything on standard input. */
  readStdin(): Promise<string>;
  /** Text of a file; throws an Error with a `code` (`ENOENT`, …) where it can't be read. */
  readFile(path: string): string;
  /** What stands at a path: decides whether writing there would destroy something. */
  kindOf(path: string): 'nothing' | 'file' | 'directory' | 'device';
  /** Throws the system's error where the folder of a path is not there or takes no new file. */
  mayWriteAt(path: string): void;
  /** Writes all of the text or nothing; where an existing file is kept and there is one, the call throws. */
  writeFile(path: string, text: string, existing: Existing): void;
  /** Adds to the end of a file, which is made where there is none; how long the file then is [bytes]. */
  appendFile(path: string, text: string): number;
  /** Each line of a file with its place and length in bytes, without holding the file; whether the last one ends. */
  scanLines(path: string, take: (line: string, at: number, bytes: number) => void): boolean;
  /** Some bytes of a file as text. */
  readSlice(path: string, at: number, bytes: number): string;
  /** The path with links and dots resolved, for telling whether two paths are one file. */
  resolvePath(path: string): string;
  /** Keeps what is known of a fault of the program in a new file of the system's temporary folder; its path. */
  keepFault(text: string): string;
  /** Keeps a result that could not be written where it was asked for, in the system's temporary folder; its path. */
  keepResult(name: string, text: string): string;
  /** Milliseconds from some moment on. */
  now(): number;
  /** Where the schema of combination files was installed, as an absolute path. */
  readonly schemaFile: string;
  readonly env: Environment;
  /** Aborts when the user asks to stop; undefined until somebody watches for that. */
  readonly signal: AbortSignal | undefined;
  /** From now on a first wish to stop, Ctrl-C where none is named, aborts `signal`, and only a second ends the program at once. */
  watchForStop(wishes?: readonly ('SIGINT' | 'SIGTERM')[]): AbortSignal;
}

/** The variables that are looked at. */
export interface Environment {
  readonly NO_COLOR?: string | undefined;
  readonly FORCE_COLOR?: string | undefined;
  readonly TERM?: string | undefined;
  readonly VALVETIDE_QUEUE_PASSWORD?: string | undefined;
}
