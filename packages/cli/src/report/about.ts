/** What a combination file says of the job: for whom, under which number, and what is worth remembering. */

import type { Core } from '../core.ts';
import type { TextInput } from '../input/readInput.ts';
import { html, type Markup, NOTHING, named } from './html.ts';

export interface About {
  readonly job: string;
  readonly customer: string;
  readonly notes: string;
}

export const NOTHING_ABOUT: About = { job: '', customer: '', notes: '' };

/** As the file has it; empty where it says nothing. */
export function aboutOf({ text, file }: Pick<TextInput, 'text' | 'file'>, core: Core): About {
  const read = core.readDocument(text, { file });
  if (!read.ok) return NOTHING_ABOUT;
  const { data } = read.value;
  const field = (name: keyof About): string => {
    const value = Object.hasOwn(data, name) ? data[name] : undefined;
    return typeof value === 'string' || typeof value === 'number' ? String(value).trim() : '';
  };
  return { job: field('job'), customer: field('customer'), notes: field('notes') };
}

/** A line over the answer; nothing where the file names neither job nor customer. */
export function jobMarkup({ job, customer }: About): Markup {
  const parts = [...(job === '' ? [] : [`Job ${job}`]), ...(customer === '' ? [] : [customer])];
  return parts.length === 0
    ? NOTHING
    : html`<p class="job">${parts.map((part) => html`<span>${named(part)}</span> `)}</p>\n`;
}

/** The notes, a paragraph each; nothing where there are none. */
export function notesMarkup({ notes }: About): Markup {
  if (notes === '') return NOTHING;
  const paragraphs = notes.split(/\n{2,}/u).map((text) => html`<p>${named(text)}</p>\n`);
  return html`<section id="notes"><h2>Notes</h2>
${paragraphs}</section>
`;
}
