/** HTML made from templates that escape whatever is put into them, so that no name from a file can be anything but text. */
import { plain } from '../render/plain.ts';

/** Markup that is safe as it stands. */
export interface Markup {
  readonly markup: string;
}

type Piece = string | number | Markup | readonly Markup[];

/** Template tag: strings and numbers are escaped, markup goes in as it is. */
export function html(parts: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  return { markup: parts.map((part, i) => (i === 0 ? part : markupOf(pieces[i - 1]) + part)).join('') };
}

/** Markup that this program wrote itself: style sheets and drawings. Never text from a file. */
export function trusted(markup: string): Markup {
  return { markup };
}

export const NOTHING: Markup = { markup: '' };

/** Text from a file. Its direction of writing is kept to itself, so that right-to-left names don't turn their surroundings. */
export function named(text: string): Markup {
  return html`<bdi>${text}</bdi>`;
}

/** A sentence whose figures stay with their units and errors where a line ends. */
export function unbroken(text: string): string {
  return text
    .replace(/ \+\/- /gu, '\u00a0+/-\u00a0')
    .replace(/(\d) (%|hp|kW|lb-ft|N m|rpm|inHg|in|mm|deg)(?![\p{L}\d])/gu, '$1\u00a0$2');
}

function markupOf(piece: Piece): string {
  if (typeof piece === 'string') return escaped(piece);
  if (typeof piece === 'number') return escaped(String(piece));
  return 'markup' in piece ? piece.markup : piece.map(({ markup }) => markup).join('');
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Controls and reordering marks spelled out, then what HTML would obey. A page has the one sign for what a terminal writes as `+/-`, behind which
 * browsers end a line.
 */
function escaped(text: string): string {
  return withOneSign(plain(text)).replace(/[&<>"']/g, (character) => ENTITIES[character]);
}

function withOneSign(text: string): string {
  return text.replace(/\+\/-([ \u00a0]?)/gu, (_, blank: string) => (blank === '' ? '±' : '±\u00a0'));
}
