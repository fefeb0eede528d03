/** What pictures made of letters share: round scales, their labels, and straight lines between points. */
import { fixed } from './fixed.ts';

/** From the lowest label of a picture to its highest. */
export interface ChartScale {
  readonly bottom: number;
  readonly top: number;
  readonly step: number;
}

/** Round numbers around all values, about `steps` of them apart. */
export function roundScale(values: readonly number[], steps: number): ChartScale {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const rough = (high - low || Math.abs(high) || 1) / steps;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5].find((digit) => digit * power >= rough) ?? 10) * power;
  const bottom = Math.floor(low / step) * step;
  const top = Math.ceil(high / step) * step;
  return { bottom, top: top > bottom ? top : bottom + step, step };
}

/** The rows of a picture with their labels and the axis in front of them, and what stands under the axis. */
export function framed(
  rows: readonly string[],
  scale: ChartScale,
  rowOf: (value: number) => number,
  { under, across }: { readonly under: string; readonly across: number },
): readonly string[] {
  const decimals = decimalsOf(scale);
  const labels = new Map<number, string>();
  const count = Math.round((scale.top - scale.bottom) / scale.step);
  for (let i = 0; i <= count; i++) {
    const value = scale.bottom + i * scale.step;
    if (!labels.has(rowOf(value))) labels.set(rowOf(value), fixed(value, decimals));
  }
  const width = labelWidth(scale);
  const margin = ' '.repeat(width + 1);
  return [
    ...rows.map((row, i) => {
      const label = labels.get(i);
      return `${(label ?? '').padStart(width)} ${label === undefined ? '|' : '+'} ${row}`.trimEnd();
    }),
    `${margin}+${'-'.repeat(across + 1)}`,
    `${margin}  ${under}`,
  ];
}

function decimalsOf({ step }: ChartScale): number {
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}

/** Characters that the longest label takes. */
export function labelWidth(scale: ChartScale): number {
  const decimals = decimalsOf(scale);
  return Math.max(fixed(scale.top, decimals).length, fixed(scale.bottom, decimals).length);
}

/** Every value under its column, or every second or third of them where they don't fit; the last always, and the unit behind it. */
export function axisLabels(
  shown: readonly { readonly x: number; readonly label: string }[],
  unit: string,
  across: number,
  columnOf: (x: number) => number,
): string {
  const end = `${shown[shown.length - 1].label} ${unit}`.trim();
  const endAt = across - end.length;
  const placed = shown
    .slice(0, -1)
    .map(({ x, label }) => ({ label, at: Math.max(0, columnOf(x) - Math.floor(label.length / 2)) }));
  for (let every = 1; ; every++) {
    const line = placed
      .filter(({ at, label }, i) => i % every === 0 && at + label.length < endAt)
      .reduce<string | null>((left, { at, label }) => {
        if (left === null || (left !== '' && at <= left.length)) return null;
        return left.padEnd(at) + label;
      }, '');
    if (line !== null) return line.padEnd(endAt) + end;
  }
}

/** Straight between the neighbours of `x`, held beyond the ends. */
export function valueAt(points: readonly { readonly x: number; readonly y: number }[], x: number): number {
  const after = points.findIndex((point) => point.x >= x);
  if (after <= 0) return points[after === 0 ? 0 : points.length - 1].y;
  const [a, b] = [points[after - 1], points[after]];
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}
