/** The functions of the contents page, each with the examples in its comment. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const sources = join(import.meta.dirname, '../../packages/core/src');

/** A function that programs call. */
export interface ExportedFunction {
  readonly name: string;
  /** Code of each example. */
  readonly examples: readonly string[];
}

/** Every function, and every class, that the contents page names. */
export function exportedFunctions(): readonly ExportedFunction[] {
  const contents = readFileSync(join(sources, 'index.ts'), 'utf8');
  return [...contents.matchAll(/^export \{([^}]*)\} from '([^']*)'/gm)].flatMap(([, names, file]) => {
    const text = readFileSync(join(sources, file), 'utf8');
    return names
      .split(',')
      .map((name) => name.trim())
      .filter((name) => name !== '')
      .flatMap((name) => functionIn(text, name));
  });
}

/** Constants are none, unless their type says that they are called. */
function functionIn(text: string, name: string): ExportedFunction[] {
  const called = new RegExp(
    `^export (?:(?:async )?function\\*?|class) ${name}\\b|^export const ${name}: (?:RunJobs|Pause)\\b`,
    'm',
  ).exec(text);
  if (called === null) {
    if (!new RegExp(`^export const ${name}\\b`, 'm').test(text))
      throw new Error(`no ${name} where it should be`);
    return [];
  }
  const before = text.slice(0, called.index).trimEnd();
  const comment = before.endsWith('*/') ? before.slice(before.lastIndexOf('/**')) : '';
  const examples = [...comment.matchAll(/@example\n \* ```ts\n(.*?)\n \* ```/gs)].map(([, lines]) =>
    lines.replace(/^ \* ?/gm, ''),
  );
  return [{ name, examples }];
}
