/** The built command as a shell starts it: pipes, signals, standard input, colour and width. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { stripVTControlCharacters } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const program = join(root, 'packages/cli/bin/valvetide.js');
const minimum = join(root, 'examples/minimum/engine.yaml');
const colour = '\u001b[';
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'valvetide-terminal-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The variables of this process without those that colour or width depend on, and some others. */
function environment(more: Readonly<Record<string, string>>): NodeJS.ProcessEnv {
  const { NO_COLOR, FORCE_COLOR, COLUMNS, ...rest } = process.env;
  return { ...rest, TERM: 'xterm', ...more };
}

function valvetide(words: readonly string[], more: Readonly<Record<string, string>> = {}, input = '') {
  return spawnSync('node', [program, ...words], {
    cwd: folder,
    encoding: 'utf8',
    input,
    env: environment(more),
  });
}

/** Runs a line of bash and gives its standard output and error. */
function bash(line: string, more: Readonly<Record<string, string>> = {}) {
  return spawnSync('bash', ['-c', line], { cwd: folder, encoding: 'utf8', env: environment(more) });
}

describe('a reader that goes away', () => {
  it('does no harm: schema | head -1 ends with 0 and says nothing', () => {
    const { stdout, stderr } = bash(`node '${program}' schema | head -1; echo "\${PIPESTATUS[0]}"`);
    expect(stdout).toBe('{\n0\n');
    expect(stderr).toBe('');
  });

  it.each([[['schema']], [['inspect', minimum, '--json']], [['--help']]])(
    'before anything is written does no harm either: %j',
    async (words) => {
      const child = spawn('node', [program, ...words], {
        cwd: folder,
        env: environment({}),
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      child.stdout.destroy();
      let complaints = '';
      child.stderr.on('data', (text: Buffer) => {
        complaints += text.toString();
      });
      const code = await new Promise((done) => child.on('close', done));
      expect(code).toBe(0);
      // The doubts about a file are all that may be said.
      expect(complaints).not.toMatch(/EPIPE|Error|at .*\.js/);
    },
  );
});

describe('an interrupt', () => {
  it('ends a forecast with 130 and leaves no file behind', async () => {
    // Job control, since bash lets no interrupt through to what it starts in the background without.
    const line = `set -m; node '${program}' forecast '${minimum}' --fidelity all --rpm 1000:9000:50 -o curve.txt & sleep 6; kill -INT $!; wait $!; echo $?`;
    const { stdout } = bash(line);
    // Of its own accord it would end with 0, after minutes.
    expect(stdout.trim().split('\n').at(-1)).toBe('130');
    await wait(100);
    expect(existsSync(join(folder, 'curve.txt'))).toBe(false);
  });
});

describe('an interrupt of a ranking on two threads', () => {
  const hillClimb = join(root, 'examples/hill-climb');
  /** Ctrl-C once a dozen forecasts are done: the engine as it is and with each change, of a hundred. */
  const interrupted = async (journal: string, ...words: readonly string[]) => {
    const files = [join(hillClimb, 'engine.yaml'), '--changes', join(hillClimb, 'changes.yaml')];
    const means = ['--band', '5000:7500', '--workers', '2', '--journal', journal];
    const child = spawn('node', [program, 'rank', ...files, ...means, ...words], {
      cwd: folder,
      env: environment({}),
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const said = { out: '', err: '' };
    child.stdout.on('data', (text: Buffer) => {
      said.out += text.toString();
    });
    child.stderr.on('data', (text: Buffer) => {
      said.err += text.toString();
    });
    const ended = new Promise<number>((done) => child.on('close', done));
    const path = join(folder, journal);
    const done = (): number => (existsSync(path) ? readFileSync(path, 'utf8').split('{"key"').length - 1 : 0);
    while (done() < 12 && child.exitCode === null) await wait(50);
    child.kill('SIGINT');
    return { code: await ended, ...said };
  };

  it('ends with 130 and gives what is done as JSON that says it is not complete', async () => {
    const { code, out, err } = await interrupted('json.ndjson', '--json');
    expect(code).toBe(130);
    const { complete, baseline, changes } = JSON.parse(out);
    expect(complete).toBe(false);
    expect(baseline.bandPowerKw).toBeGreaterThan(100);
    for (const { bandGainPct, sigmaPct } of changes) {
      expect(Number.isFinite(bandGainPct)).toBe(true);
      expect(sigmaPct).toBeNull();
    }
    expect(err).toMatch(/interrupted: \d+ of \d+ forecasts done/);
  });

  it('shows what is done to people and says that it is not all', async () => {
    const { code, out } = await interrupted('people.ndjson');
    expect(code).toBe(130);
    expect(out).toContain('Tern Street six:');
    expect(out.replaceAll(/\s+/g, ' ')).toContain('Interrupted: what was not run is missing');
  });
});

describe('a dash for a file', () => {
  it('reads the combination from standard input', () => {
    const { status, stdout } = valvetide(['inspect', '-'], {}, readFileSync(minimum, 'utf8'));
    expect(status).toBe(0);
    expect(stdout).toContain('Small four');
  });

  it('names standard input in problems', () => {
    const { status, stderr } = valvetide(['inspect', '-'], {}, 'engine: { bore: 4 }');
    expect(status).toBe(3);
    expect(stderr).toMatch(/^standard input:1:11 engine\.bore needs a length /m);
  });
});

describe('colour', () => {
  it('is in no pipe, is there with FORCE_COLOR, and gives way to NO_COLOR', () => {
    const inspect = ['inspect', minimum];
    expect(valvetide(inspect).stdout).not.toContain(colour);
    expect(valvetide(inspect, { FORCE_COLOR: '1' }).stdout).toContain(colour);
    expect(valvetide(inspect, { FORCE_COLOR: '1', NO_COLOR: '1' }).stdout).not.toContain(colour);
  });
});

describe('width', () => {
  it.each([60, 120])('follows COLUMNS=%d where there is no terminal', (columns) => {
    const { stdout } = valvetide(['--help'], { COLUMNS: String(columns) });
    const longest = Math.max(...stdout.split('\n').map((line) => line.length));
    expect(longest).toBeLessThanOrEqual(columns);
    expect(longest).toBeGreaterThan(Math.min(columns, 100) - 20);
  });

  it('is 80 where COLUMNS is no number', () => {
    const usual = valvetide(['--help']).stdout;
    for (const nonsense of ['0', 'wide'])
      expect(valvetide(['--help'], { COLUMNS: nonsense }).stdout).toBe(usual);
  });
});

/** `script` of util-linux gives a program a terminal of its own. */
const hasTerminal = spawnSync('script', ['--version'], { encoding: 'utf8' }).stdout?.includes('util-linux');

describe.skipIf(!hasTerminal)('on a terminal of its own', () => {
  const onTerminal = (line: string) => bash(`script -qec "${line}" /dev/null < /dev/null`).stdout;

  it('shows colour and a picture no wider than the terminal', () => {
    const text = onTerminal(`stty cols 60; node '${program}' forecast ${minimum} --rpm 3000,4000,5000`);
    expect(text).toContain(colour);
    const plain = stripVTControlCharacters(text);
    const lines = plain.split(/[\r\n]+/);
    const picture = lines.slice(lines.findIndex((line) => line.startsWith('T torque')));
    expect(picture.length).toBeGreaterThan(10);
    for (const line of picture) expect(line.length, line).toBeLessThanOrEqual(60);
  });

  it('shows no colour with NO_COLOR', () => {
    expect(onTerminal(`NO_COLOR=1 node '${program}' inspect ${minimum}`)).not.toContain(colour);
  });
});
