/** Tables as HTML. */
import type { Column } from '../render/table.ts';
import { html, type Markup, NOTHING } from './html.ts';

/** A table that scrolls by itself where the page is narrower. The first column heads its rows. */
export function tableMarkup<Row>(
  label: string,
  columns: readonly Column<Row>[],
  rows: readonly Row[],
): Markup {
  const words = (column: Column<Row>): string => (column.align === 'left' ? 'words' : '');
  const head = columns.map(
    (column) =>
      html`<th scope="col" class="${words(column)}">${column.name}${column.unit === '' ? NOTHING : html`<span class="unit">${column.unit}</span>`}</th>`,
  );
  const body = rows.map((row) => {
    const cells = columns.map((column, i) =>
      i === 0
        ? html`<th scope="row" class="${words(column)}">${column.cell(row)}</th>`
        : html`<td class="${words(column)}">${column.cell(row)}</td>`,
    );
    return html`<tr>${cells}</tr>`;
  });
  return html`<div class="scroll" role="region" aria-label="${label}" tabindex="0"><table><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table></div>`;
}

/** Wide tables in equal blocks of a few columns, each opened by the first column, so that they fit on paper. */
export function inBlocks<Row>(columns: readonly Column<Row>[], most: number): Column<Row>[][] {
  const [key, ...others] = columns;
  const blocks: Column<Row>[][] = [];
  const size = Math.ceil(others.length / Math.ceil(others.length / most));
  for (let i = 0; i < others.length; i += size) blocks.push([key, ...others.slice(i, i + size)]);
  return blocks;
}
