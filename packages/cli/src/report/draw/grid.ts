/** Amounts in a grid: each cell says its figure, and its colour the sign and the size. */
import type { Spec } from 'vega';
import { textWidth } from './legend.ts';
import { linesOf } from './linesOf.ts';
import { colour } from './palette.ts';

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

export function gridSpec(
  { rowTitle, columnTitle, rows, columns, cells, strongest = 1e-9 }: Grid,
  width: number,
): Spec {
  const shown = rows.map((name) => linesOf(name, width * MOST));
  const left = Math.round(16 + Math.max(...shown.flat().map(textWidth)));
  const inner = width - left - 6;
  const largest = Math.max(strongest, ...cells.map(({ value }) => Math.abs(value ?? 0)));
  const step = inner / columns.length;
  // Words that their column has no room for stand upright: cut off they would say another size.
  const headRoom = Math.max(...columns.map(textWidth));
  const upright = headRoom > step - 4;
  const head = upright ? headRoom + 8 : 20;
  const turned = Math.max(...cells.map(({ text }) => textWidth(text))) > step - 4;
  const height = turned ? TALL_CELL : CELL;
  const values = cells.map(({ row, column, value, text, marked = false }) => ({
    row,
    column,
    text,
    tone: colour((value ?? 0) < 0 ? 'b' : 'a'),
    // Faint enough at its strongest for dark letters on light paper and the reverse.
    strength: value === null ? 0 : 0.04 + 0.26 * (Math.abs(value) / largest),
    edge: marked ? colour('ink') : 'var(--rule)',
    edgeWidth: marked ? 3 : 1,
  }));
  const x = (offset: number) => ({ field: 'column', mult: step, offset });
  const y = (offset: number) => ({ field: 'row', mult: height, offset });
  const label = (text: string, at: Record<string, unknown>) => ({
    type: 'text' as const,
    encode: { enter: { ...at, text: { value: text }, fill: { value: colour('soft') } } },
  });
  return {
    width: inner,
    height: rows.length * height,
    padding: { left, right: 6, top: head + (rowTitle === '' ? 28 : 50), bottom: 6 },
    autosize: 'none',
    data: [{ name: 'cells', values }],
    marks: [
      {
        type: 'rect',
        from: { data: 'cells' },
        encode: {
          enter: {
            x: x(1),
            y: y(1),
            width: { value: step - 2 },
            height: { value: height - 2 },
            fill: { field: 'tone' },
            fillOpacity: { field: 'strength' },
            stroke: { field: 'edge' },
            strokeWidth: { field: 'edgeWidth' },
          },
        },
      },
      {
        type: 'text',
        from: { data: 'cells' },
        encode: {
          enter: {
            x: x(step / 2),
            y: y(height / 2),
            ...(turned ? { angle: { value: -90 } } : {}),
            align: { value: 'center' },
            baseline: { value: 'middle' },
            text: { field: 'text' },
          },
        },
      },
      ...shown.flatMap((lines, i) =>
        lines.map((line, k) =>
          label(line, {
            x: { value: -8 },
            y: { value: (i + 0.5) * height + (k - (lines.length - 1) / 2) * LINE },
            align: { value: 'right' },
            baseline: { value: 'middle' },
          }),
        ),
      ),
      ...columns.map((name, i) =>
        label(name, {
          x: { value: (i + 0.5) * step },
          y: { value: -8 },
          ...(upright
            ? { angle: { value: -90 }, align: { value: 'left' }, baseline: { value: 'middle' } }
            : { align: { value: 'center' } }),
        }),
      ),
      label(columnTitle, { x: { value: 2 - left }, y: { value: -head - 10 } }),
      label(rowTitle, { x: { value: 2 - left }, y: { value: -head - 32 } }),
    ],
  };
}
