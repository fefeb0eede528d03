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

/** Lines of the `sh` blocks that call our command, without `npx`, in order. */
export function commandLines(text: string): string[] {
  return blocks(text, 'sh')
    .flatMap((body) => body.split('\n'))
    .map((line) => line.trim().replace(/^npx /, ''))
    .filter((line) => /^valvetide\b/.test(line));
}
