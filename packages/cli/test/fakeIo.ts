/** A world of its own for each test: files in memory, streams that remember. */
import { posix } from 'node:path';
import type { Environment, Io } from '../src/io.ts';

export interface World {
  readonly io: Io;
  readonly files: Map<string, string>;
  out(): string;
  err(): string;
}

export interface WorldOptions {
  readonly files?: Readonly<Record<string, string>>;
  readonly stdin?: string;
  readonly stdinIsTTY?: boolean;
  readonly stdoutIsTTY?: boolean;
  readonly stderrIsTTY?: boolean;
  readonly columns?: number;
  readonly env?: Environment;
  readonly signal?: AbortSignal;
  /** Milliseconds; stands still where left out. */
  readonly now?: () => number;
  /** Paths whose reading or writing is refused, with the system's code; `in FOLDER`: that no file may be made there. */
  readonly refused?: Readonly<Record<string, string>>;
}

export function world(options: WorldOptions = {}): World {
  const files = new Map(Object.entries(options.files ?? {}));
  const written = { out: '', err: '' };
  const refuse = (path: string): void => {
    const code = options.refused?.[path];
    if (code !== undefined) throw Object.assign(new Error(`${code}: refused`), { code });
  };
  const key = (path: string): string => posix.normalize(path);
  return {
    files,
    out: () => written.out,
    err: () => written.err,
    io: {
      stdout: {
        write: (text) => {
          written.out += text;
        },
        isTTY: options.stdoutIsTTY ?? false,
        columns: options.columns,
      },
      stderr: {
        write: (text) => {
          written.err += text;
        },
        isTTY: options.stderrIsTTY ?? false,
        columns: options.columns,
      },
      stdinIsTTY: options.stdinIsTTY ?? false,
      readStdin: async () => options.stdin ?? '',
      readFile: (path) => {
        refuse(key(path));
        const text = files.get(key(path));
        if (text === undefined) throw Object.assign(new Error('ENOENT: no such file'), { code: 'ENOENT' });
        return text;
      },
      kindOf: (path) => (path.endsWith('/') ? 'directory' : files.has(key(path)) ? 'file' : 'nothing'),
      mayWriteAt: (path) => refuse(`in ${posix.dirname(key(path))}`),
      writeFile: (path, text, existing) => {
        refuse(key(path));
        if (existing === 'keep' && files.has(key(path)))
          throw Object.assign(new Error('EEXIST'), { code: 'EEXIST' });
        files.set(key(path), text);
      },
      appendFile: (path, text) => {
        refuse(key(path));
        const whole = (files.get(key(path)) ?? '') + text;
        files.set(key(path), whole);
        return Buffer.byteLength(whole);
      },
      scanLines: (path, take) => {
        refuse(key(path));
        const text = files.get(key(path));
        if (text === undefined) throw Object.assign(new Error('ENOENT: no such file'), { code: 'ENOENT' });
        let at = 0;
        for (const line of text.split('\n')) {
          const bytes = Buffer.byteLength(line);
          if (bytes > 0) take(line, at, bytes);
          at += bytes + 1;
        }
        return text.endsWith('\n');
      },
      readSlice: (path, at, bytes) =>
        Buffer.from(files.get(key(path)) ?? '')
          .subarray(at, at + bytes)
          .toString(),
      resolvePath: (path) => posix.resolve('/', path),
      keepFault: (text) => {
        refuse('/tmp/fault.txt');
        files.set('/tmp/fault.txt', text);
        return '/tmp/fault.txt';
      },
      keepResult: (name, text) => {
        refuse('/tmp/result');
        files.set(`/tmp/result/${name}`, text);
        return `/tmp/result/${name}`;
      },
      now: options.now ?? (() => 0),
      schemaFile: '/installed/schema/combination.schema.json',
      env: options.env ?? {},
      signal: options.signal,
      watchForStop: () => options.signal ?? new AbortController().signal,
    },
  };
}
