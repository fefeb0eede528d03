/** Amounts in a grid: each cell says its figure, and its colour the sign and the size. */
import type { Mark, Spec } from 'vega';
import { textWidth } from './legend.ts';
import { linesOf } from './linesOf.ts';
import { colour } from './palette.ts';
import { words } from './plotSpec.ts';

export interface Grid {
  readonly rowTitle: string;
  readonly columnTitle: string;
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  readonly cells: readonly {
    readonly row: number;
    readonly column: number;
    /** Above zero in one colour, below in another; null for a cell without an amount. */
    readonly value: number | null;
    readonly text: string;
    /** Framed, to be found at once. */
    readonly marked?: boolean;
  }[];
  /** Amount that takes the strongest colour where none is larger, so that next to nothing looks like it. */
  readonly strongest?: number;
}

const CELL = 34;
/** Where figures stand upright because their cells are narrow. */
const TALL_CELL = 50;
/** Most of the width that names beside the rows may take. */
const MOST = 0.4;
const LINE = 15;

export function gridSpec(grid: Grid, width: number): Spec {
  const { rowTitle, columnTitle, rows, columns } = grid;
  const size = sizeOf(grid, width);
  const { left, step, height, head } = size;
  return {
    width: size.inner,
    height: rows.length * height,
    padding: { left, right: RIGHT, top: head + (rowTitle === '' ? 28 : 50), bottom: 6 },
    autosize: 'none',
    data: [{ name: 'cells', values: valuesOf(grid) }],
    marks: [
      ...cellMarks(size),
      ...size.rowLines.flatMap((lines, i) => rowName(lines, (i + 0.5) * height)),
      ...columns.map((name, i) => columnName(name, (i + 0.5) * step, size)),
      words(columnTitle, { x: { value: 2 - left }, y: { value: -head - 10 } }),
      words(rowTitle, { x: { value: 2 - left }, y: { value: -head - 32 } }),
    ],
  };
}

const RIGHT = 6;

/** Where everything stands: names measure what is left for the cells, and cells whether words stand upright. */
interface GridSize {
  /** Names of the rows, in lines. */
  readonly rowLines: readonly (readonly string[])[];
  readonly left: number;
  readonly inner: number;
  /** Width and height of a cell. */
  readonly step: number;
  readonly height: number;
  /** Room above the cells for the names of the columns. */
  readonly head: number;
  /** Words that their column has no room for stand upright: cut off they would say another size. */
  readonly columnNames: Lie;
  readonly figures: Lie;
}

type Lie = 'level' | 'upright';

function sizeOf({ rows, columns, cells }: Grid, width: number): GridSize {
  const rowLines = rows.map((name) => linesOf(name, width * MOST));
  const left = Math.round(16 + Math.max(...rowLines.flat().map(textWidth)));
  const inner = width - left - RIGHT;
  const step = inner / columns.length;
  const lie = (longest: number): Lie => (longest > step - 4 ? 'upright' : 'level');
  const longestName = Math.max(...columns.map(textWidth));
  const columnNames = lie(longestName);
  const figures = lie(Math.max(...cells.map(({ text }) => textWidth(text))));
  const head = columnNames === 'upright' ? longestName + 8 : 20;
  return {
    rowLines,
    left,
    inner,
    step,
    height: figures === 'upright' ? TALL_CELL : CELL,
    head,
    columnNames,
    figures,
  };
}

/** The cells as the drawing's data: where, what is said, and how they are painted. */
function valuesOf({ cells, strongest = 1e-9 }: Grid): Record<string, unknown>[] {
  const largest = Math.max(strongest, ...cells.map(({ value }) => Math.abs(value ?? 0)));
  return cells.map(({ row, column, value, text, marked = false }) => ({
    row,
    column,
    text,
    tone: colour((value ?? 0) < 0 ? 'b' : 'a'),
    // Faint enough at its strongest for dark letters on light paper and the reverse.
    strength: value === null ? 0 : 0.04 + 0.26 * (Math.abs(value) / largest),
    edge: marked ? colour('ink') : 'var(--rule)',
    edgeWidth: marked ? 3 : 1,
  }));
}

/** The boxes, and the figures in them. */
function cellMarks({ step, height, figures }: GridSize): Mark[] {
  const x = (offset: number) => ({ field: 'column', mult: step, offset });
  const y = (offset: number) => ({ field: 'row', mult: height, offset });
  const box = {
    x: x(1),
    y: y(1),
    width: { value: step - 2 },
    height: { value: height - 2 },
    fill: { field: 'tone' },
    fillOpacity: { field: 'strength' },
    stroke: { field: 'edge' },
    strokeWidth: { field: 'edgeWidth' },
  };
  const figure = {
    x: x(step / 2),
    y: y(height / 2),
    ...(figures === 'upright' ? { angle: { value: -90 } } : {}),
    align: { value: 'center' as const },
    baseline: { value: 'middle' as const },
    text: { field: 'text' },
  };
  return [
    { type: 'rect', from: { data: 'cells' }, encode: { enter: box } },
    { type: 'text', from: { data: 'cells' }, encode: { enter: figure } },
  ];
}

/** Beside its row, about the middle of it. */
function rowName(lines: readonly string[], middle: number): Mark[] {
  return lines.map((line, k) =>
    words(line, {
      x: { value: -8 },
      y: { value: middle + (k - (lines.length - 1) / 2) * LINE },
      align: { value: 'right' },
      baseline: { value: 'middle' },
    }),
  );
}

function columnName(name: string, middle: number, { columnNames }: GridSize): Mark {
  return words(name, {
    x: { value: middle },
    y: { value: -8 },
    ...(columnNames === 'upright'
      ? { angle: { value: -90 }, align: { value: 'left' }, baseline: { value: 'middle' } }
      : { align: { value: 'center' } }),
  });
}
