/** Text to the nodes of YAML, with what its syntax has wrong told in few lines. */

import { type Node, parseDocument, type YAMLError } from 'yaml';
import { complain, type Walk, WHOLE_FILE } from './walk.ts';

/** Most brackets open at once. */
const MAX_OPEN_BRACKETS = 60;

/** After a few slips of syntax the parser only stumbles on. */
const MAX_SYNTAX_PROBLEMS = 5;

/**
 * The text with each bare carriage return, the end of a line on old machines and in some spreadsheets, as a line feed. No character moves, so that
 * places in one are places in the other.
 */
export function withLineFeeds(text: string): string {
  return text.replaceAll(/\r(?!\n)/gu, '\n');
}

/** The contents of a text; undefined where there is no reading them, and the walk says why. */
export function parseText(written: string, walk: Walk): Node | null | undefined {
  const text = withLineFeeds(written);
  const parsed = isNestedTooDeep(text) ? null : parseGuarded(text, walk);
  if (parsed === null) {
    complain(walk, WHOLE_FILE, 'too-deep', 'cannot be read: it is nested too deep');
    return undefined;
  }
  // Tags, known and unknown, are told on the way through, once each.
  const warnings = parsed.warnings.filter(({ code }) => code !== 'TAG_RESOLVE_FAILED');
  // One tab makes the parser stumble over all that follows.
  const tabs = parsed.errors.filter(({ code }) => code === 'TAB_AS_INDENT');
  // Of what it says of one place the first is the cause.
  const places = new Set<number>();
  const told = parsed.errors.filter(({ pos: [place] }) => !places.has(place) && places.add(place));
  const errors = tabs.length > 0 ? tabs : told;
  for (const error of [...errors, ...warnings].slice(0, MAX_SYNTAX_PROBLEMS)) complainOfSyntax(error, walk);
  // A directive can turn `no` into false and `1:30` into 90.
  if (/^%/mu.test(text) && isDirected(parsed)) {
    complain(walk, WHOLE_FILE, 'directive', 'has a YAML directive', 'take the line that begins with % out');
  }
  return parsed.errors.length > 0 ? undefined : parsed.contents;
}

/**
 * Whether brackets, or list marks on one line, nest deeper than any file needs.
 *
 * Looked at before parsing, since the parser recurses and a stack that runs out can take the whole process with it.
 * Brackets in quoted text and remarks count too: no file has this many of them open.
 */
function isNestedTooDeep(text: string): boolean {
  if (/^(?:[ \t]*[-?:][ \t]){40}/mu.test(text)) return true;
  let open = 0;
  for (const character of text) {
    if (character === '[' || character === '{') open += 1;
    else if (character === ']' || character === '}') open = Math.max(0, open - 1);
    if (open > MAX_OPEN_BRACKETS) return true;
  }
  return false;
}

/** The parser's document; null where nesting got past the look before, and the parser ran out of stack. */
function parseGuarded(text: string, walk: Walk): ReturnType<typeof parseDocument> | null {
  try {
    return parseDocument(text, {
      lineCounter: walk.lines,
      prettyErrors: false,
      schema: 'core',
      merge: false,
      // Looked for on the way through, where the field's name and first place are known.
      uniqueKeys: false,
    });
  } catch {
    return null;
  }
}

/** Whether the text begins with directives for the parser. */
function isDirected({ directives }: ReturnType<typeof parseDocument>): boolean {
  if (directives === undefined) return false;
  return directives.yaml.explicit === true || Object.keys(directives.tags).some((name) => name !== '!!');
}

/** What to do about a slip of syntax that builders make, by the parser's name for it. */
function syntaxHint(code: string, message: string): readonly string[] {
  if (code === 'TAB_AS_INDENT') return ['put spaces in place of tabs'];
  if (code === 'MULTILINE_IMPLICIT_KEY')
    return ['a name is followed by a colon and a space, as in bore: 81 mm'];
  if (code === 'BLOCK_AS_IMPLICIT_KEY')
    return [
      'the line below stands further in than the fields beside it, or this value holds a colon and wants quotes',
    ];
  const isColumn = code === 'BAD_INDENT' && !message.startsWith('Flow');
  return isColumn ? ['fields of one section stand in one column'] : [];
}

function complainOfSyntax({ code, message, pos }: YAMLError, walk: Walk): void {
  const spot = { offset: pos[0], path: '' };
  if (code === 'MULTIPLE_DOCS') {
    complain(walk, spot, 'several-documents', 'holds more than one document: keep one engine a file');
    return;
  }
  complain(
    walk,
    spot,
    'syntax',
    `is not readable YAML: ${message.replace(/\s+/gu, ' ').trim()}`,
    ...syntaxHint(code, message),
  );
}
