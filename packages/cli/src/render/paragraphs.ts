/** What every text for people begins and ends with, and how its parts are joined. */
import { wrapped } from './notes.ts';
import type { TextOptions } from './textOptions.ts';

/** Parts with a line between them; those without words are left out. */
export function paragraphs(parts: readonly string[]): string {
  return parts.filter((part) => part !== '').join('\n');
}

/** The line that is read first. */
export function answerText(answer: string, { paint, width }: Pick<TextOptions, 'paint' | 'width'>): string {
  return `${paint.strong(wrapped(answer, width).trimEnd())}\n`;
}

/** What made the result. */
export function madeBy({ name, version }: { readonly name: string; readonly version: string }): string {
  return `${name} ${version}\n`;
}
