/** The real outside world: this process's streams and the file system. */
import {
  closeSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXIT } from './exitCodes.ts';
import type { Io, Sink } from './io.ts';
import { reasonOf } from './output/reasonOf.ts';

export function processIo(): Io {
  // No handler for SIGINT unless asked for: where the march runs on this thread it never yields, so that only the system's
  // own action can stop it at once. Nothing is half written then, because results are written whole and last.
  let stop: AbortController | undefined;
  return {
    stdout: sink(process.stdout),
    stderr: sink(process.stderr),
    stdinIsTTY: process.stdin.isTTY === true,
    readStdin,
    readFile: (path) => readFileSync(path, 'utf8'),
    kindOf,
    writeFile,
    resolvePath,
    schemaFile: fileURLToPath(new URL('../schema/combination.schema.json', import.meta.url)),
    env: process.env,
    get signal() {
      return stop?.signal;
    },
    watchForStop: () => {
      if (stop === undefined) {
        const controller = new AbortController();
        stop = controller;
        process.once('SIGINT', () => controller.abort());
      }
      return stop.signal;
    },
  };
}

function sink(stream: NodeJS.WriteStream): Sink {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    // A reader that went away (`| head`) is no failure of ours.
    if (error.code === 'EPIPE') return;
    process.exitCode = EXIT.file;
    if (stream === process.stdout)
      process.stderr.write(`standard output: can't be written (${reasonOf(error)})\n`);
  });
  return {
    write: (text) => void stream.write(text),
    isTTY: stream.isTTY === true,
    get columns() {
      // A terminal that does not know its own width says 0.
      return (stream.isTTY === true ? stream.columns : 0) || columnsAskedFor(process.env['COLUMNS']);
    },
  };
}

/** Width asked for by whoever starts us where there is no terminal to ask, as pagers and test runners do. */
function columnsAskedFor(value: string | undefined): number | undefined {
  return value !== undefined && /^[1-9]\d{0,4}$/.test(value) ? Number(value) : undefined;
}

async function readStdin(): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks).toString('utf8');
}

function kindOf(path: string): 'nothing' | 'file' | 'directory' | 'device' {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return 'nothing';
  if (found.isDirectory()) return 'directory';
  return found.isFile() ? 'file' : 'device';
}

function writeFile(path: string, text: string, replace: boolean): void {
  const kind = kindOf(path);
  if (kind === 'device') {
    writeFileSync(path, text);
  } else if (kind === 'file' && replace) {
    // Beside the target, then renamed: an interrupted write leaves the old file whole.
    const target = realpathSync(path);
    const draft = `${target}.${process.pid}.part`;
    writeNew(draft, text);
    renameSync(draft, target);
  } else {
    writeNew(path, text);
  }
}

function writeNew(path: string, text: string): void {
  const handle = openSync(path, 'wx');
  try {
    writeFileSync(handle, text);
  } catch (error) {
    unlinkSync(path);
    throw error;
  } finally {
    closeSync(handle);
  }
}

function resolvePath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return resolve(path);
  }
}
