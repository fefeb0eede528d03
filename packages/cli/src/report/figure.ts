/** A drawing with its title, its description and the figures behind it. */
import type { Spec } from 'vega';
import { plainShort } from '../render/plain.ts';
import type { Column } from '../render/table.ts';
import { type Panels, panelsSpec } from './draw/panels.ts';
import type { Plot } from './draw/plot.ts';
import { USUAL_SIZE, WIDE_SIZE } from './draw/plot.ts';
import { plotSpec } from './draw/plotSpec.ts';
import type { Rows } from './draw/rows.ts';
import { rowsSpec } from './draw/rows.ts';
import { toSvg } from './draw/toSvg.ts';
import { html, type Markup, NOTHING } from './html.ts';
import { tableMarkup } from './tableMarkup.ts';

/** A table whose type of row is nobody's business outside of it. */
export interface FigureTable {
  readonly markup: (label: string) => Markup;
}

export interface Figure {
  /** Letters and hyphens; unique in a report. */
  readonly id: string;
  readonly title: string;
  /** What is to be seen, with its main figures: read aloud to people who can't see it, and printed below. */
  readonly description: string;
  readonly drawing:
    | { readonly kind: 'plot'; readonly plot: Plot }
    | { readonly kind: 'panels'; readonly panels: Panels }
    | { readonly kind: 'rows'; readonly rows: Rows }
    | { readonly kind: 'spec'; readonly spec: (width: number) => Spec };
  readonly table: FigureTable;
}

export function figureTable<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): FigureTable {
  return { markup: (label) => tableMarkup(label, columns, rows) };
}

/** The charts a result can show by their ids, in the order of the page; null where there is nothing to draw. */
export type Charts<Id extends string = string> = Readonly<Record<Id, () => Figure | null>>;

/** Leading figures, each over the whole width; those that are not there are left out. */
export async function leadsMarkup(figures: readonly (Figure | null)[]): Promise<readonly Markup[]> {
  return Promise.all(figures.flatMap((figure) => (figure === null ? [] : [leadMarkup(figure)])));
}

/** Figures side by side; those that are not there are left out. */
export async function gridMarkup(figures: readonly (Figure | null)[]): Promise<Markup> {
  const drawn = figures.flatMap((figure) => (figure === null ? [] : [figureMarkup(figure)]));
  return drawn.length === 0 ? NOTHING : html`<div class="charts">\n${await Promise.all(drawn)}</div>\n`;
}

/** The figure as it stands among others. */
async function figureMarkup(figure: Figure): Promise<Markup> {
  return assembled(figure, await toSvg(specOf(figure, USUAL_SIZE), captionOf(figure, '')));
}

/** The figure over the whole width, and drawn anew for narrow screens: scaled down, its type could not be read. */
async function leadMarkup(figure: Figure): Promise<Markup> {
  const wide = await toSvg(specOf(figure, WIDE_SIZE), captionOf(figure, '-wide'));
  const narrow = await toSvg(specOf(figure, USUAL_SIZE), captionOf(figure, '-narrow'));
  return html`<div class="lead">${assembled(figure, html`<div class="wide">${wide}</div><div class="narrow">${narrow}</div>`)}</div>`;
}

function assembled({ id, title, description, table }: Figure, drawing: Markup): Markup {
  return html`<figure id="${id}"><h3>${title}</h3>${drawing}<figcaption>${description}</figcaption><details><summary>The figures behind it</summary>${table.markup(title)}</details></figure>
`;
}

function captionOf({ id, title, description }: Figure, suffix: string) {
  return { id: `${id}${suffix}`, title: plainShort(title, 200), description };
}

/** The drawing at a size, for a page or for a file of its own. */
export function specOf({ drawing }: Figure, size: { width: number; height: number }): Spec {
  switch (drawing.kind) {
    case 'plot':
      return plotSpec(drawing.plot, size);
    case 'panels':
      return panelsSpec(drawing.panels, size.width);
    case 'rows':
      return rowsSpec(drawing.rows, size.width);
    case 'spec':
      return drawing.spec(size.width);
  }
}
