/** A Vega specification as an SVG text with a title and a description, drawn without a browser. */
import type { Spec } from 'vega';
import { html, type Markup, trusted } from '../html.ts';

/** Names a drawing for people who can't see it. */
export interface Caption {
  /** Unique on its page, letters and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
}

/** Font of all drawings; the page's style sheet uses the same. */
export const FONT = 'system-ui, -apple-system, "Segoe UI", "Helvetica Neue", Arial, sans-serif';
export const FONT_SIZE = 14;

/** @param style - a style sheet for a drawing that stands alone; empty within a page */
export async function toSvg(spec: Spec, { id, title, description }: Caption, style = ''): Promise<Markup> {
  // Loaded on first use: a command that draws nothing must not wait for it.
  const { parse, View } = await import('vega');
  const view = new View(parse({ ...spec, background: 'transparent', config: CONFIG }), { renderer: 'none' });
  const svg = await view.toSVG();
  view.finalize();
  const size = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  const body = renamed(/^<svg[^>]*>([\s\S]*)$/.exec(svg)?.[1] ?? '', id);
  if (size === null || body === '') throw new Error('the drawing has no size');
  const [, width, height] = size;
  const sheet = style === '' ? trusted('') : html`<style>${trusted(style)}</style>`;
  return html`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="${FONT}" role="img" aria-labelledby="${id}-title ${id}-text"><title id="${id}-title">${title}</title><desc id="${id}-text">${description}</desc>${sheet}${trusted(body)}`;
}

/** Vega numbers clip paths from the start of the process; here from the start of the drawing, and unlike in any other. */
function renamed(body: string, id: string): string {
  const known: string[] = [];
  return body.replace(/(id="|url\(#)(clip\d+)/g, (_, before: string, name: string) => {
    if (!known.includes(name)) known.push(name);
    return `${before}${id}-clip-${known.indexOf(name) + 1}`;
  });
}

/** Plain lines, no boxes, type that stays readable on a telephone. */
const CONFIG = {
  font: 'inherit',
  view: { stroke: 'transparent' },
  axis: {
    labelFont: 'inherit',
    labelFontSize: FONT_SIZE,
    labelColor: 'var(--soft)',
    labelOverlap: true,
    labelPadding: 5,
    titleFont: 'inherit',
    titleFontSize: FONT_SIZE,
    titleFontWeight: 'normal',
    titleColor: 'var(--ink)',
    titlePadding: 8,
    domainColor: 'var(--soft)',
    tickColor: 'var(--soft)',
    tickSize: 4,
    gridColor: 'var(--rule)',
  },
  text: { font: 'inherit', fontSize: FONT_SIZE, fill: 'var(--ink)' },
} as const;
