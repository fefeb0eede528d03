/** Torque and power over speed, drawn with letters so that it reads without colour, in a file and on paper. */
import { axisLabels, framed, labelWidth, roundScale, valueAt } from './chartAxes.ts';
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
  const curve = (key: 'torque' | 'power') => points.map((point) => ({ x: point.rpm, y: point[key] }));
  const [torque, power] = [curve('torque'), curve('power')];
  const scale = roundScale(
    [...torque, ...power].map(({ y }) => y),
    6,
  );
  const width = Math.max(20, options.width - labelWidth(scale) - 3);
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
    put(column, valueAt(power, rpm), 'p');
    put(column, valueAt(torque, rpm), 't');
  }
  for (const { x, y } of power) put(columnOf(x), y, 'P');
  for (const { x, y } of torque) put(columnOf(x), y, 'T');

  const paintLetter = (letter: string): string => {
    if (letter === 't' || letter === 'T') return options.paint.torque(letter);
    if (letter === 'p' || letter === 'P') return options.paint.power(letter);
    return letter;
  };
  const rows = grid.map((row) => row.join('').trimEnd().split('').map(paintLetter).join(''));
  const key = `T torque ${options.torqueUnit}, P power ${options.powerUnit}, B both; small letters between speeds`;
  const speeds = points.map(({ rpm }) => ({ x: rpm, label: fixed(rpm) }));
  const under = axisLabels(speeds, 'rpm', width, columnOf);
  return `${[...wrap(key, options.width), ...framed(rows, scale, rowOf, { under, across: width })].join('\n')}\n`;
}
