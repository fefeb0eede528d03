/** The built command in a process of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

export const root: string = join(import.meta.dirname, '../..');
const program = join(root, 'packages/cli/bin/valvetide.js');

export interface Running {
  readonly child: ChildProcess;
  out(): string;
  err(): string;
  /** The exit code once it has ended; null where a signal ended it. */
  readonly ended: Promise<number | null>;
  /** Waits until it has said something on standard error. */
  says(words: string): Promise<void>;
}

export function valvetide(
  words: readonly string[],
  { file = program, env = {} }: { readonly file?: string; readonly env?: NodeJS.ProcessEnv } = {},
): Running {
  const child = spawn(process.execPath, [file, ...words], {
    cwd: root,
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let [out, err] = ['', ''];
  child.stdout.on('data', (some) => {
    out += some;
  });
  child.stderr.on('data', (some) => {
    err += some;
  });
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  return {
    child,
    out: () => out,
    err: () => err,
    ended,
    says: async (wanted) => {
      while (!err.includes(wanted)) {
        if (child.exitCode !== null) throw new Error(`ended with ${child.exitCode}: ${err}`);
        await wait(20);
      }
    },
  };
}
