/** Pages of the manual. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../src/commandList.ts';
import { manPages } from '../src/render/manPage.ts';

const pages = (): Readonly<Record<string, string>> => manPages(COMMANDS, '1.2.3');
const formatter = spawnSync('groff', ['--version']).status === 0;

describe('the manual', () => {
  it('has the pages that the manifest lists, no more and no fewer', () => {
    const manifest = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
    expect(manifest.man).toEqual(Object.keys(pages()).map((name) => `./man/${name}`));
  });

  it.runIf(formatter)('is formatted without a complaint, and loses no option, example or note', () => {
    for (const command of COMMANDS) {
      const source = pages()[`valvetide-${command.name}.1`];
      const run = spawnSync('groff', ['-man', '-Tascii', '-ww', '-rLL=400n', '-P-cbou'], {
        input: source,
        encoding: 'utf8',
      });
      expect(run.stderr).toBe('');
      const shown = run.stdout.replaceAll(/\s+/g, ' ');
      for (const { name } of command.options) expect(shown).toContain(`--${name}`);
      for (const [line] of command.examples) expect(shown).toContain(line.replaceAll(/\s+/g, ' '));
      for (const note of command.notes) expect(shown).toContain(note);
    }
  });

  it('shows a backslash and a dot that begins a line as they are', () => {
    const command = { ...COMMANDS[0], notes: ['.hidden file, path\\name'] };
    expect(manPages([command], '1')[`valvetide-${command.name}.1`]).toContain('\\&.hidden file, path\\ename');
  });
});
