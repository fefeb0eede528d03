/** The project's guides: every Markdown file a reader is sent to. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const root: string = join(import.meta.dirname, '../..');

/** Paths from the root. */
export function guides(): string[] {
  const docs = readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .map((name) => `docs/${name.replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith('.md'));
  return ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', ...docs.sort()];
}

export function readGuide(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

export function exists(path: string): boolean {
  return existsSync(join(root, path));
}

/** The fenced blocks of one language. */
export function blocks(text: string, language: string): string[] {
  return [...text.matchAll(/^```(\w*)\n(.*?)^```$/gms)]
    .filter(([, name]) => name === language)
    .map(([, , body]) => body);
}

/** Lines of the `sh` blocks that call our command as it can be called in this folder, without `npx`, in order. */
export function commandLines(text: string): string[] {
  return blocks(text, 'sh')
    .flatMap((body) => body.split('\n'))
    .filter((line) => line.startsWith('npx valvetide '))
    .map((line) => line.slice('npx '.length));
}

/** Texts of the files in `examples`, by path from the root. */
export function exampleFiles(): Record<string, string> {
  const files: Record<string, string> = {};
  for (const name of readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' })) {
    const path = `examples/${name.replaceAll('\\', '/')}`;
    if (/\.(yaml|csv|json)$/.test(path)) files[path] = readGuide(path);
  }
  return files;
}

/** A command line to its words without the program's name, and the file that `<` names. */
export function split(line: string): { words: string[]; input: string | undefined } {
  const words = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? '');
  const redirect = words.indexOf('<');
  return redirect < 0
    ? { words: words.slice(1), input: undefined }
    : { words: words.slice(1, redirect), input: words[redirect + 1] };
}
