/** Several lines over one axis, each drawn with its own letter. */
import { axisLabels, framed, labelWidth, roundScale, valueAt } from './chartAxes.ts';

export interface Line {
  /** One character. */
  readonly letter: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

export interface LinesOptions {
  /** Characters across, axis included. */
  readonly width: number;
  /** Stands behind the last label under the picture. */
  readonly unit: string;
  /** Draws the level 0, where it lies within the picture. */
  readonly zero: boolean;
  /** Drawn over the lines, one letter a point. */
  readonly dots?: readonly Line[];
}

/** `#` where lines cross on one spot. A line is straight between its points. Empty with fewer than two points. */
export function linesChart(lines: readonly Line[], { width, unit, zero, dots = [] }: LinesOptions): string {
  const all = [...lines, ...dots].flatMap(({ points }) => points);
  const xs = [...new Set(all.map(({ x }) => x))].sort((a, b) => a - b);
  if (xs.length < 2) return '';
  const scale = roundScale([...all.map(({ y }) => y), ...(zero ? [0] : [])], 5);
  const across = Math.max(20, width - labelWidth(scale) - 3);
  const height = Math.min(20, Math.max(10, Math.round(width / 6)));
  const [first, last] = [xs[0], xs[xs.length - 1]];
  const columnOf = (x: number): number => Math.round(((x - first) / (last - first)) * (across - 1));
  const rowOf = (y: number): number =>
    Math.round(((scale.top - y) / (scale.top - scale.bottom)) * (height - 1));

  const grid = Array.from({ length: height }, () => new Array<string>(across).fill(' '));
  if (zero) grid[rowOf(0)].fill('-');
  for (const { letter, points } of lines) {
    const sorted = [...points].sort((a, b) => a.x - b.x);
    if (sorted.length === 0) continue;
    for (let column = columnOf(sorted[0].x); column <= columnOf(sorted[sorted.length - 1].x); column++) {
      const y = valueAt(sorted, first + ((last - first) * column) / (across - 1));
      const row = grid[rowOf(y)];
      const there = row[column];
      row[column] = there === ' ' || there === '-' || there === letter ? letter : '#';
    }
  }
  for (const { letter, points } of dots) for (const { x, y } of points) grid[rowOf(y)][columnOf(x)] = letter;
  const rows = grid.map((row) => row.join('').trimEnd());
  const shown = xs.map((x) => ({ x, label: String(Number(x.toPrecision(6))) }));
  const under = axisLabels(shown, unit, across, columnOf);
  return `${framed(rows, scale, rowOf, { under, across }).join('\n')}\n`;
}
