/** The real outside world: this process's streams and the file system. */
import { accessSync, constants, mkdtempSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXIT } from './exitCodes.ts';
import { appendFile, readSlice, scanLines } from './input/lineFile.ts';
import { readRegularFile, readStream } from './input/readRegularFile.ts';
import type { Existing, Io, Sink } from './io.ts';
import { reasonOf } from './output/reasonOf.ts';
import { writeWhole } from './output/writeWhole.ts';

export function processIo(): Io {
  // No handler for SIGINT unless asked for: where the march runs on this thread it never yields, so that only the system's
  // own action can stop it at once. Nothing is half written then, because results are written whole and last.
  let stop: AbortController | undefined;
  return {
    stdout: sink(process.stdout),
    stderr: sink(process.stderr),
    stdinIsTTY: process.stdin.isTTY === true,
    readStdin: () => readStream(process.stdin),
    readFile: readRegularFile,
    kindOf,
    mayWriteAt,
    writeFile,
    appendFile,
    scanLines,
    readSlice,
    resolvePath,
    keepFault,
    keepResult,
    now: () => performance.now(),
    schemaFile: fileURLToPath(new URL('../schema/combination.schema.json', import.meta.url)),
    env: process.env,
    get signal() {
      return stop?.signal;
    },
    watchForStop: (wishes = ['SIGINT']) => {
      if (stop === undefined) {
        const controller = new AbortController();
        stop = controller;
        for (const wish of wishes) process.once(wish, () => controller.abort());
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

function kindOf(path: string): 'nothing' | 'file' | 'directory' | 'device' {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return 'nothing';
  if (found.isDirectory()) return 'directory';
  return found.isFile() ? 'file' : 'device';
}

/** A device is written to as it stands, whatever its folder. */
function mayWriteAt(path: string): void {
  if (kindOf(path) !== 'device') accessSync(dirname(resolvePath(path)), constants.W_OK | constants.X_OK);
}

function writeFile(path: string, text: string, existing: Existing): void {
  if (kindOf(path) === 'device') writeFileSync(path, text);
  else writeWhole(path, text, existing);
}

function resolvePath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return resolve(path);
  }
}

function keepFault(text: string): string {
  return kept('fault', 'fault.txt', text);
}

function keepResult(name: string, text: string): string {
  return kept('result', basename(name), text);
}

/** In a folder of its own, which only this user may enter: it may name a customer. */
function kept(what: string, name: string, text: string): string {
  const path = join(mkdtempSync(join(tmpdir(), `valvetide-${what}-`)), name);
  writeFileSync(path, text, { flag: 'wx', mode: 0o600 });
  return path;
}
