/** Torque and power over speed, drawn with letters so that it reads without colour, in a file and on paper. */
import { fixed } from './fixed.ts';
import type { Paint } from './paint.ts';
import { wrap } from './wrap.ts';

export interface ChartPoint {
  readonly rpm: number;
  readonly torque: number;
  readonly power: number;
}

export interface ChartOptions {
  /** Characters across, axis included. */
  readonly width: number;
  readonly torqueUnit: string;
  readonly powerUnit: string;
  readonly paint: Paint;
}

/**
 * Capitals are forecast points (`T` torque, `P` power, `B` both on one spot), small letters lie on the straight
 * line between two of them. Both curves share one scale. Empty with fewer than two points.
 */
export function chart(points: readonly ChartPoint[], options: ChartOptions): string {
  if (points.length < 2) return '';
  const scale = scaleFor(points);
  const labelWidth = fixed(scale.top).length;
  const width = Math.max(20, options.width - labelWidth - 3);
  const height = Math.min(24, Math.max(12, Math.round(options.width / 5)));
  const first = points[0].rpm;
  const span = points[points.length - 1].rpm - first;
  const columnOf = (rpm: number): number => Math.round(((rpm - first) / span) * (width - 1));
  const rowOf = (value: number): number =>
    Math.round(((scale.top - value) / (scale.top - scale.bottom)) * (height - 1));

  const grid = Array.from({ length: height }, () => new Array<string>(width).fill(' '));
  const put = (column: number, value: number, letter: string): void => {
    const row = rowOf(value);
    const there = grid[row][column];
    const both = there !== ' ' && there.toLowerCase() !== letter.toLowerCase();
    grid[row][column] = both ? (there === there.toUpperCase() ? 'B' : 'b') : letter;
  };
  for (let column = 0; column < width; column++) {
    const rpm = first + (span * column) / (width - 1);
    put(column, between(points, rpm, 'power'), 'p');
    put(column, between(points, rpm, 'torque'), 't');
  }
  for (const { rpm, power } of points) put(columnOf(rpm), power, 'P');
  for (const { rpm, torque } of points) put(columnOf(rpm), torque, 'T');

  const labels = labelRows(scale, height, rowOf);
  const paintLetter = (letter: string): string => {
    if (letter === 't' || letter === 'T') return options.paint.torque(letter);
    if (letter === 'p' || letter === 'P') return options.paint.power(letter);
    return letter;
  };
  const lines = grid.map((row, i) => {
    const label = labels.get(i);
    const axis = `${(label ?? '').padStart(labelWidth)} ${label === undefined ? '|' : '+'}`;
    return `${axis} ${row.join('').trimEnd().split('').map(paintLetter).join('')}`.trimEnd();
  });
  const margin = ' '.repeat(labelWidth + 1);
  const key = `T torque ${options.torqueUnit}, P power ${options.powerUnit}, B both; small letters between speeds`;
  return `${[
    ...wrap(key, options.width),
    ...lines,
    `${margin}+${'-'.repeat(width + 1)}`,
    `${margin}  ${speedLabels(points, width, columnOf)}`,
  ].join('\n')}\n`;
}

interface Scale {
  readonly bottom: number;
  readonly top: number;
  readonly step: number;
}

/** Round numbers around all values, four to eight steps apart. */
function scaleFor(points: readonly ChartPoint[]): Scale {
  const values = points.flatMap((point) => [point.torque, point.power]);
  const low = Math.min(...values);
  const high = Math.max(...values);
  const rough = (high - low || Math.abs(high) || 1) / 6;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5].find((digit) => digit * power >= rough) ?? 10) * power;
  return { bottom: Math.floor(low / step) * step, top: Math.ceil(high / step) * step, step };
}

function labelRows(scale: Scale, height: number, rowOf: (value: number) => number): Map<number, string> {
  const labels = new Map<number, string>();
  const count = Math.round((scale.top - scale.bottom) / scale.step);
  for (let i = 0; i <= count; i++) {
    const value = scale.bottom + i * scale.step;
    const row = rowOf(value);
    if (row >= 0 && row < height && !labels.has(row)) labels.set(row, fixed(value, scale.step < 1 ? 1 : 0));
  }
  return labels;
}

/** Straight line between the neighbours of `rpm`. */
function between(points: readonly ChartPoint[], rpm: number, key: 'torque' | 'power'): number {
  let i = 1;
  while (i < points.length - 1 && points[i].rpm < rpm) i++;
  const left = points[i - 1];
  const right = points[i];
  return left[key] + ((right[key] - left[key]) * (rpm - left.rpm)) / (right.rpm - left.rpm);
}

/** As many speeds as fit under their columns, first and last always. */
function speedLabels(
  points: readonly ChartPoint[],
  width: number,
  columnOf: (rpm: number) => number,
): string {
  const last = points[points.length - 1].rpm;
  const endLabel = `${fixed(last)} rpm`;
  const endAt = width - endLabel.length;
  let line = '';
  for (const { rpm } of points.slice(0, -1)) {
    const label = fixed(rpm);
    const at = Math.max(0, columnOf(rpm) - Math.floor(label.length / 2));
    if ((line === '' || at >= line.length + 2) && at + label.length + 2 <= endAt)
      line = line.padEnd(at) + label;
  }
  return line.padEnd(endAt) + endLabel;
}
