/** Whole command lines on the real library; each case is a Markdown file that says what was typed and what came back. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { main } from '../src/main.ts';
import { starterFile } from '../src/starterFile.ts';
import { type World, world } from './fakeIo.ts';

const folder = new URL('./cases/', import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith('.md'));

describe('valvetide, typed as in packages/cli/test/cases', () => {
  it('has cases', () => expect(names.length).toBeGreaterThan(10));

  it.each(names)('%s', async (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const command = /```sh\nvalvetide ?(.*)\n```/.exec(text)?.[1];
    if (command === undefined) throw new Error(`${name} has no command`);
    const { words, input, lines } = split(command);
    const w = inFolder(input);
    const before = new Map(w.files);
    const code = await main(words, w.io);
    const written = [...w.files].filter(([path, content]) => before.get(path) !== content);
    const heading = text.slice(0, text.indexOf('```sh'));
    await expect(
      caseText(heading, command, code, { out: firstLines(w.out(), lines), err: w.err() }, written),
    ).toMatchFileSnapshot(new URL(name, folder).pathname);
  });
});

/** The case files' own folder, with the starter file in it. */
function inFolder(input: string | undefined): World {
  const files: Record<string, string> = {
    'engine.yaml': starterFile('My engine', './combination.schema.json'),
  };
  for (const name of readdirSync(new URL('files/', folder))) {
    files[name] = readFileSync(new URL(`files/${name}`, folder), 'utf8');
  }
  return world({ files, columns: 80, ...(input === undefined ? {} : { stdin: files[input] ?? '' }) });
}

/** Words in double quotes stay together; `< file` becomes standard input, `| head -5` keeps five lines. */
function split(command: string): { words: string[]; input: string | undefined; lines: number } {
  const [typed, head] = command.split(' | head -');
  const all = [...typed.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? '');
  const redirect = all.indexOf('<');
  const lines = head === undefined ? Number.POSITIVE_INFINITY : Number(head);
  return redirect < 0
    ? { words: all, input: undefined, lines }
    : { words: all.slice(0, redirect), input: all[redirect + 1], lines };
}

function firstLines(text: string, count: number): string {
  return text.split('\n').slice(0, count).join('\n');
}

function caseText(
  heading: string,
  command: string,
  code: number,
  printed: { readonly out: string; readonly err: string },
  written: readonly (readonly [string, string])[],
): string {
  const block = (title: string, content: string): string =>
    content === '' ? `${title}: nothing\n\n` : `${title}:\n\n\`\`\`text\n${content.trimEnd()}\n\`\`\`\n\n`;
  const files = written.map(([path]) => path).join(', ') || 'none';
  return `${heading}\`\`\`sh
${`valvetide ${command}`.trim()}
\`\`\`

Exit code: ${code}

${block('Standard output', printed.out)}${block('Standard error', printed.err)}Files written: ${files}
`;
}
