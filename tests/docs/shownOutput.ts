/** Output as the guides show it: in `text` fences, whose form is checked, and in `figures` fences, whose figures are too. */

export interface Shown {
  readonly command: string;
  readonly outputs: readonly string[];
}

/** Commands of the page in order, each with the fences of one kind that follow it before the next. */
export function shown(page: string, kind: 'text' | 'figures'): Shown[] {
  const found: { command: string; outputs: string[] }[] = [];
  for (const [, language, body] of page.matchAll(/^```(\w*)\n(.*?)^```$/gms)) {
    if (language === 'sh') {
      for (const line of body.trim().split('\n'))
        if (line.startsWith('npx ')) found.push({ command: line.slice('npx '.length), outputs: [] });
    } else if (language === kind) found.at(-1)?.outputs.push(body);
  }
  return found.filter(({ command }) => command.startsWith('valvetide '));
}

/** The form of a line: figures, lengths of bars and the width of gaps left out, so that a better model needs no new guide. */
export function form(line: string): string {
  return line
    .replaceAll(/-?\d+(?:\.\d+)?/g, '0')
    .replaceAll(/#{2,}/g, '#')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

/** What a row of a table is about: its first cell; of a line that is no row, nothing. */
export function rowName(line: string): string | null {
  return /^ *(\S+(?: \S+)*) {2,}\S/.exec(line)?.[1] ?? null;
}

/** Lines of the letter chart have no fixed form, and a line of dots stands for what was left out. */
export function isFree(line: string): boolean {
  return (
    line.trim() === '' || line === '...' || /^ *\d* *[|+]/.test(line) || /^ +\d+( +\d+)+ rpm$/.test(line)
  );
}
