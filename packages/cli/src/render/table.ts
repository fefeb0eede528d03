/** Aligned plain tables that fit the width they are given. */

export interface Column<Row> {
  /** Name in the header, `torque`. */
  readonly name: string;
  /** Unit in the header's second line; empty for none. */
  readonly unit: string;
  readonly cell: (row: Row) => string;
  readonly align?: 'left' | 'right';
}

const GAP = '  ';
/** Says where the figure before it is, and never opens a block without it. */
const WHERE = 'at';

/**
 * The columns laid out in as many blocks as the width asks for; the first column opens each block.
 * Pass `blocks: 1` to keep only what fits beside the first column.
 */
export function table<Row>(
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  width: number,
  blocks: number = Number.POSITIVE_INFINITY,
): string {
  return splitColumns(columns, rows, width)
    .slice(0, blocks)
    .map((block) => oneBlock(block, rows))
    .join('\n');
}

/** The columns that {@link table} with `blocks: 1` leaves out, by name. */
export function leftOut<Row>(columns: readonly Column<Row>[], rows: readonly Row[], width: number): string[] {
  return splitColumns(columns, rows, width)
    .slice(1)
    .flatMap((block) => block.slice(1).map((column) => column.name));
}

function splitColumns<Row>(
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  width: number,
): Column<Row>[][] {
  const [key, ...others] = columns;
  if (key === undefined) return [];
  const result: Column<Row>[][] = [];
  let block: Column<Row>[] = [key];
  let used = columnWidth(key, rows);
  for (const part of keptTogether(others)) {
    const more = part.reduce((sum, column) => sum + GAP.length + columnWidth(column, rows), 0);
    if (used + more > width && block.length > 1) {
      result.push(block);
      block = [key];
      used = columnWidth(key, rows);
    }
    block.push(...part);
    used += more;
  }
  result.push(block);
  return result;
}

function keptTogether<Row>(columns: readonly Column<Row>[]): readonly (readonly Column<Row>[])[] {
  const parts: Column<Row>[][] = [];
  for (const column of columns) {
    const last = parts.at(-1);
    if (column.name === WHERE && last !== undefined) last.push(column);
    else parts.push([column]);
  }
  return parts;
}

function columnWidth<Row>(column: Column<Row>, rows: readonly Row[]): number {
  return Math.max(column.name.length, column.unit.length, ...rows.map((row) => column.cell(row).length));
}

function oneBlock<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const widths = columns.map((column) => columnWidth(column, rows));
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => (columns[i].align === 'left' ? cell.padEnd(widths[i]) : cell.padStart(widths[i])))
      .join(GAP)
      .trimEnd();
  const lines = [line(columns.map((column) => column.name))];
  if (columns.some((column) => column.unit !== '')) lines.push(line(columns.map((column) => column.unit)));
  lines.push(line(widths.map((width) => '-'.repeat(width))));
  for (const row of rows) lines.push(line(columns.map((column) => column.cell(row))));
  return `${lines.join('\n')}\n`;
}
