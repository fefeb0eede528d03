/** A Redis server of its own for a test, on a free port, that keeps nothing. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createConnection, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

export interface RedisServer {
  readonly port: number;
  readonly url: string;
  /** Ends it at once, with all it held. */
  stop(): Promise<void>;
  /** Leaves it there, but deaf and dumb. */
  freeze(): void;
  thaw(): void;
  /** Begins anew on the same port. */
  start(): Promise<void>;
}

export async function redisServer(words: readonly string[] = []): Promise<RedisServer> {
  const port = await freePort();
  let child: ChildProcess | undefined;
  let folder = '';
  const start = async (): Promise<void> => {
    folder = mkdtempSync(join(tmpdir(), 'valvetide-redis-'));
    const begun = spawn(
      'redis-server',
      [
        '--port',
        `${port}`,
        '--bind',
        '127.0.0.1',
        '--save',
        '',
        '--appendonly',
        'no',
        '--dir',
        folder,
        ...words,
      ],
      { stdio: 'ignore' },
    );
    child = begun;
    await new Promise<void>((resolve, reject) => {
      begun.once('spawn', resolve);
      begun.once('error', () =>
        reject(new Error('these tests need a Redis server: apt-get install redis-server')),
      );
    });
    while (!(await answers(port))) {
      if (begun.exitCode !== null) throw new Error(`redis-server ended with ${begun.exitCode}`);
      await wait(20);
    }
  };
  const stop = async (): Promise<void> => {
    const ended = child;
    child = undefined;
    if (ended === undefined || ended.exitCode !== null) return;
    const gone = new Promise((resolve) => ended.once('exit', resolve));
    ended.kill('SIGKILL');
    await gone;
    rmSync(folder, { recursive: true, force: true });
  };
  await start();
  return {
    port,
    url: `redis://127.0.0.1:${port}`,
    start,
    stop,
    freeze: () => void child?.kill('SIGSTOP'),
    thaw: () => void child?.kill('SIGCONT'),
  };
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return address.port;
}

async function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = createConnection(port, '127.0.0.1');
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
