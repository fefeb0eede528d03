/** Several lines over one axis, each drawn with its own letter. */
import { fixed } from './fixed.ts';

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
  const scale = scaleFor([...all.map(({ y }) => y), ...(zero ? [0] : [])]);
  const decimals = Math.max(0, -Math.floor(Math.log10(scale.step) + 1e-9));
  const labelWidth = Math.max(fixed(scale.top, decimals).length, fixed(scale.bottom, decimals).length);
  const across = Math.max(20, width - labelWidth - 3);
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
  const labels = new Map<number, string>();
  for (let y = scale.bottom; y <= scale.top + scale.step / 2; y += scale.step)
    if (!labels.has(rowOf(y))) labels.set(rowOf(y), fixed(y, decimals));
  const rows = grid.map((row, i) => {
    const label = labels.get(i);
    return `${(label ?? '').padStart(labelWidth)} ${label === undefined ? '|' : '+'} ${row.join('').trimEnd()}`.trimEnd();
  });
  const margin = ' '.repeat(labelWidth + 1);
  return `${[
    ...rows,
    `${margin}+${'-'.repeat(across + 1)}`,
    `${margin}  ${axisLabels(xs, across, columnOf, unit)}`,
  ].join('\n')}\n`;
}

/** Round numbers around all values. */
function scaleFor(values: readonly number[]): { bottom: number; top: number; step: number } {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const rough = (high - low || Math.abs(high) || 1) / 5;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5].find((digit) => digit * power >= rough) ?? 10) * power;
  const bottom = Math.floor(low / step) * step;
  const top = Math.ceil(high / step) * step;
  return { bottom, top: top > bottom ? top : bottom + step, step };
}

/** Straight between the neighbours of `x`. */
function valueAt(points: Line['points'], x: number): number {
  const after = points.findIndex((point) => point.x >= x);
  if (after <= 0) return points[after === 0 ? 0 : points.length - 1].y;
  const [a, b] = [points[after - 1], points[after]];
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}

/** As many values as fit under their columns, first and last always. */
function axisLabels(
  xs: readonly number[],
  width: number,
  columnOf: (x: number) => number,
  unit: string,
): string {
  const shown = (x: number): string => String(Number(x.toPrecision(6)));
  const end = `${shown(xs[xs.length - 1])} ${unit}`.trim();
  const endAt = width - end.length;
  let line = '';
  for (const x of xs.slice(0, -1)) {
    const label = shown(x);
    const at = Math.max(0, columnOf(x) - Math.floor(label.length / 2));
    if ((line === '' || at >= line.length + 2) && at + label.length + 2 <= endAt)
      line = line.padEnd(at) + label;
  }
  return line.padEnd(endAt) + end;
}
