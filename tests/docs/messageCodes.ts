/** Codes of problems and warnings as the library's sources give them. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Which argument of a call is the code. */
const CALLS: Readonly<Record<string, number>> = {
  misspeltAt: 2,
  problem: 1,
  problemOf: 2,
  sheetProblem: 2,
  fail: 1,
  complain: 2,
  each: 1,
  sourceProblem: 2,
  FieldFault: 1,
  failure: 0,
  refused: 1,
  warn: 0,
  add: 0,
};

const LITERAL = /^'([a-z][a-z0-9]*(?:-[a-z0-9]+)*)'$/u;
/** Words behind `code:` that stand for a value of another kind. */
const NO_CODES: ReadonlySet<string> = new Set(['custom', 'invalid']);

/** Every code that stands in the sources, sorted. */
export function messageCodes(root: string): readonly string[] {
  const folder = join(root, 'packages/core/src');
  const codes = new Set<string>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!name.endsWith('.ts')) continue;
    const text = readFileSync(join(folder, name), 'utf8');
    for (const found of text.matchAll(/\bcode: ('[a-z0-9-]+')/gu)) keep(found[1], codes);
    for (const found of text.matchAll(/\b([A-Za-z]+)\(/gu)) {
      const at = Object.hasOwn(CALLS, found[1]) ? CALLS[found[1]] : undefined;
      if (at === undefined) continue;
      for (const code of choices(argumentsAt(text, found.index + found[0].length)[at] ?? ''))
        keep(code, codes);
    }
    // Codes listed by themselves: a tuple of code and words, and types of codes.
    for (const found of text.matchAll(/\[('[a-z]+(?:-[a-z]+)+'), (?:message|`)/gu)) keep(found[1], codes);
  }
  return [...codes].filter((code) => !NO_CODES.has(code)).sort();
}

function keep(text: string, codes: Set<string>): void {
  const code = LITERAL.exec(text.trim())?.[1];
  if (code !== undefined) codes.add(code);
}

/** `a ? 'one' : 'two'` is two. */
function choices(text: string): readonly string[] {
  return text.includes('?')
    ? [...text.matchAll(/'[a-z0-9-]+'(?=\s*(?::|$))/gu)].map(([literal]) => literal)
    : [text];
}

/** Arguments of a call, from behind its bracket. */
function argumentsAt(text: string, from: number): readonly string[] {
  const found: string[] = [];
  let depth = 0;
  let quote = '';
  let current = '';
  for (let i = from; i < text.length && found.length < 6; i += 1) {
    const character = text[i];
    if (quote !== '') {
      if (character === '\\') {
        current += character + text[i + 1];
        i += 1;
        continue;
      }
      if (character === quote) quote = '';
    } else if (character === "'" || character === '"' || character === '`') quote = character;
    else if ('([{'.includes(character)) depth += 1;
    else if (')]}'.includes(character)) {
      if (depth === 0) return [...found, current.trim()];
      depth -= 1;
    } else if (character === ',' && depth === 0) {
      found.push(current.trim());
      current = '';
      continue;
    }
    current += character;
  }
  return found;
}
