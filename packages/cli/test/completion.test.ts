/** Completion, in the shells that are on this machine. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS } from '../src/commandList.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';

async function script(shell: string): Promise<string> {
  const w = world();
  expect(await main(['completion', shell], w.io)).toBe(EXIT.ok);
  return w.out();
}

// A shell that this machine lacks can't be asked; the scripts' words are held for all of them beside.
const has = (shell: string): boolean => spawnSync(shell, ['--version']).status === 0;

describe.runIf(has('bash'))('completion in bash', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'valvetide-completion-'));
    mkdirSync(join(folder, 'sheets'));
    for (const name of ['engine.yaml', 'spring build.yaml']) writeFileSync(join(folder, name), '');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** What is offered at the end of a line of words, the last of which is being typed. */
  async function offered(...words: readonly string[]): Promise<readonly string[]> {
    const quoted = words.map((word) => `'${word}'`).join(' ');
    const asked = `COMP_WORDS=(valvetide ${quoted}); COMP_CWORD=${words.length}; _valvetide
for reply in "\${COMPREPLY[@]}"; do printf '%s\\n' "$reply"; done`;
    const typed = `set -eu\n${await script('bash')}${asked}\n`;
    const text = execFileSync('bash', ['--norc', '-c', typed], { cwd: folder, encoding: 'utf8' });
    return text.split('\n').filter((line) => line !== '');
  }

  it('offers every command, and those that begin as typed', async () => {
    expect(await offered('')).toEqual([...COMMANDS.map(({ name }) => name), 'help']);
    expect(await offered('in')).toEqual(['inspect', 'init']);
    expect(await offered('--no-color', 'fo')).toEqual(['forecast']);
    expect(await offered('help', 'fo')).toEqual(['forecast']);
    expect(await offered('--v')).toEqual(['--version']);
  });

  it('offers every option of the command at hand and no other', async () => {
    for (const command of COMMANDS) {
      const names = command.options.map(({ name }) => `--${name}`);
      expect(await offered(command.name, '--')).toEqual([...names, '--no-color', '--help', '--version']);
    }
  });

  it('offers the words of an option or an operand that has some', async () => {
    expect(await offered('forecast', 'engine.yaml', '--fidelity', '')).toEqual(['representative', 'all']);
    expect(await offered('compare', '--units', 's')).toEqual(['si']);
    expect(await offered('completion', '')).toEqual(['bash', 'zsh', 'fish']);
    expect(await offered('schema', '')).toEqual(['changes', 'shelf']);
  });

  it('offers files where a file is asked for, blanks in their names kept, and nothing where a number is', async () => {
    expect([...(await offered('forecast', 's'))].sort()).toEqual(['sheets', 'spring build.yaml']);
    expect(await offered('forecast', 'engine.yaml', '--pull', 'e')).toEqual(['engine.yaml']);
    expect(await offered('inspect', '-o', 'e')).toEqual(['engine.yaml']);
    expect(await offered('forecast', '--rpm', '')).toEqual([]);
    expect(await offered('init', '')).toEqual([]);
  });
});

describe.each(['zsh', 'fish'])('completion in %s', (shell) => {
  it('names every command and every option', async () => {
    const text = await script(shell);
    for (const { name, options } of COMMANDS) {
      expect(text).toContain(name);
      for (const option of options)
        expect(text).toContain(shell === 'fish' ? `-l ${option.name}` : `--${option.name}`);
    }
  });

  it.runIf(has(shell))('is a script that the shell understands', async () => {
    const read = spawnSync(shell, ['-n'], { input: await script(shell), encoding: 'utf8' });
    expect(read.stderr).toBe('');
    expect(read.status).toBe(0);
  });
});

describe('a shell there is nothing for', () => {
  it('is refused with those there are', async () => {
    const w = world();
    expect(await main(['completion', 'other'], w.io)).toBe(EXIT.usage);
    expect(w.err()).toContain('no shell other: bash, zsh, fish');
  });
});
