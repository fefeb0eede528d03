/** A text in lines of a width. */
import { textWidth } from './legend.ts';

/** Lines that a text may take. */
const MOST_LINES = 2;

/** What is left over ends in dots. */
export function linesOf(text: string, width: number, most: number = MOST_LINES): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  const kept = lines.slice(0, most);
  if (lines.length > most) kept[most - 1] += '...';
  return kept.map((line) => (textWidth(line) <= width ? line : shortened(line, width)));
}

function shortened(line: string, width: number): string {
  const letters = Math.max(4, Math.floor((line.length * width) / textWidth(line)));
  return `${line.slice(0, letters - 3)}...`;
}
