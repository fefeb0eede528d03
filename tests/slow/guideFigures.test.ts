/**
 * The figures that the guides show are those of the program. GUIDES=write puts the present ones in their place, on every
 * page; without it the pages of rankings, choices and restrictions are left out, which take minutes.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CORE, type Core } from '../../packages/cli/src/core.ts';
import { main } from '../../packages/cli/src/main.ts';
import { world } from '../../packages/cli/test/fakeIo.ts';
import { runJobsHere } from '../../packages/core/src/studies/job.ts';
import { commandLines, exampleFiles, guides, readGuide, root, split } from '../docs/guides.ts';
import { form, isFree, rowName, shown } from '../docs/shownOutput.ts';

const WRITE = process.env['GUIDES'] === 'write';
const LONG = ['README.md', 'docs/guide/choose.md', 'docs/guide/rank.md', 'docs/guide/restrictions.md'];
const core: Core = { ...CORE, openRunner: () => ({ run: runJobsHere, close: async () => {} }) };

/** Wide enough for every table that a guide shows whole. */
const COLUMNS = [90, 100];

const pages = guides()
  .filter((path) => shown(readGuide(path), 'figures').some(({ outputs }) => outputs.length > 0))
  .filter((path) => WRITE || !LONG.includes(path));

/** The examples, and the file that the page's `init` writes. */
async function filesOf(page: string): Promise<Readonly<Record<string, string>>> {
  const files = exampleFiles();
  const init = commandLines(page).find((line) => line.startsWith('valvetide init') && line.includes(' -o '));
  if (init === undefined) return files;
  const w = world({ files, columns: 90 });
  expect(await main(split(init).words, w.io, core), init).toBe(0);
  return Object.fromEntries(w.files);
}

/** What the command says at a width, and what stands in the files it writes, as lines. */
async function outputOf(
  command: string,
  columns: number,
  files: Readonly<Record<string, string>>,
): Promise<readonly string[]> {
  const { words, input } = split(command);
  const w = world({ files, columns, ...(input === undefined ? {} : { stdin: files[input] }) });
  expect(await main(words, w.io, core), command).toBe(0);
  const written = [...w.files].filter(([name]) => !(name in files)).map(([, text]) => text);
  return [w.out(), ...written].flatMap((text) => text.split('\n'));
}

/**
 * Each line with the real one that follows the last found: a row of a table with the row of its name, any other line, or a row that is gone,
 * with one of its form; null where there is none.
 */
function matched(lines: readonly string[], real: readonly string[]): (string | null)[] {
  let from = 0;
  const find = (isIt: (candidate: string) => boolean): number =>
    real.findIndex((candidate, i) => i >= from && isIt(candidate));
  return lines.map((line) => {
    if (isFree(line)) return line;
    const name = /\d/.test(line) ? rowName(line) : null;
    const named = name === null ? -1 : find((candidate) => rowName(candidate) === name);
    const at = named < 0 ? find((candidate) => form(candidate) === form(line)) : named;
    if (at < 0) return null;
    from = at + 1;
    return real[at];
  });
}

/** What stands in a line beside figures, their signs and bars. */
const wordsOf = (line: string): string => form(line).replaceAll(/[+#]/g, '').replaceAll(/\s+/g, ' ');

const figuresOf = (line: string): string[] => line.match(/-?\d+(?:\.\d+)?/g) ?? [];

/** A per cent, or five of the last digit: what a guide says of its figures in words is still true then. */
function isStale(said: string, real: string): boolean {
  const decimals = said.split('.')[1]?.length ?? 0;
  return Math.abs(Number(said) - Number(real)) > Math.max(0.01 * Math.abs(Number(said)), 5 / 10 ** decimals);
}

describe('the figures in the guides', () => {
  it.each(pages)(
    '%s',
    async (path) => {
      const page = readGuide(path);
      let written = page;
      const files = await filesOf(page);
      for (const { command, outputs } of shown(page, 'figures')) {
        if (outputs.length === 0) continue;
        const fences = outputs.map((output) => output.split('\n'));
        let found = fences.map((lines) => lines.map((): string | null => null));
        for (const columns of COLUMNS) {
          if (!found.some((lines) => missing(lines) > 0)) break;
          const real = await outputOf(command, columns, files);
          found = fences.map((lines, i) => {
            const now = matched(lines, real);
            return missing(now) < missing(found[i]) ? now : found[i];
          });
        }
        for (const [k, output] of outputs.entries()) {
          const lines = fences[k];
          const best = found[k];
          if (WRITE) {
            written = written.replace(output, () => best.map((line, i) => line ?? lines[i]).join('\n'));
            continue;
          }
          const without = lines.filter((_, i) => best[i] === null);
          expect.soft(without, `${command}: no longer printed`).toEqual([]);
          const stale = lines.filter((line, i) => {
            const now = figuresOf(best[i] ?? line);
            const sayOther = wordsOf(best[i] ?? line) !== wordsOf(line);
            return sayOther || figuresOf(line).some((said, k) => isStale(said, now[k] ?? said));
          });
          expect.soft(stale, `${command}: GUIDES=write brings them up to date`).toEqual([]);
        }
      }
      if (WRITE) writeFileSync(join(root, path), written);
    },
    1_200_000,
  );
});

const missing = (lines: readonly (string | null)[]): number => lines.filter((line) => line === null).length;
