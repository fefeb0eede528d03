/** What the charts over engine speed share: their axis, their series and their tables. */
import type { Curve, MarchedPoint, OperatingPoint } from '@valvetide/core';
import { marched, markedSpeed } from '../../render/marched.ts';
import { plainShort } from '../../render/plain.ts';
import type { Column } from '../../render/table.ts';
import { type Colour, SERIES } from '../draw/palette.ts';
import type { Axis, Layer, Point, Shape } from '../draw/plot.ts';

/** A curve with the name it goes by in a chart. */
export interface NamedCurve {
  readonly name: string;
  readonly curve: Curve;
}

export const SPEED_AXIS: Axis = { title: 'engine speed, rpm', whole: true };

export const SPEED_COLUMN: Column<OperatingPoint> = {
  name: 'speed',
  unit: 'rpm',
  cell: markedSpeed,
};

/** Speeds farther apart than this leave room for a hump between them that nothing shows [rpm]. */
export const FAR_RPM = 750;

/** Curves that can still be told apart in one drawing, the one they are held against left out. */
export const MOST_TOGETHER = 3;
/** Small plots that a figure may have. */
export const MOST_PANELS = 12;

/** A sentence for drawings whose lines are broken somewhere; empty where none is. */
export function farRemark(rpm: readonly number[]): string {
  return rpm.some((speed, i) => i > 0 && speed - rpm[i - 1] > FAR_RPM)
    ? ' Dashed: no speed between was run.'
    : '';
}

/** A lost speed has no figures, and no place in a drawing. */
export function overSpeed(
  points: readonly OperatingPoint[],
  value: (point: MarchedPoint) => number,
): readonly Point[] {
  return marched(points).map((point) => ({ x: point.rpm, y: value(point) }));
}

/** The point of a curve with the largest of a figure; null where there are no figures. */
export function highest(
  curve: Pick<Curve, 'points'>,
  value: (point: MarchedPoint) => number,
): MarchedPoint | null {
  return marched(curve.points).reduce<MarchedPoint | null>(
    (best, point) => (best === null || value(point) > value(best) ? point : best),
    null,
  );
}

const SHAPES: readonly Shape[] = ['circle', 'square', 'diamond', 'triangle-up'];

/** One line a curve. */
export function lineFor(
  { name, curve }: NamedCurve,
  index: number,
  value: (point: MarchedPoint) => number,
): Layer {
  return {
    kind: 'line',
    name: seriesName(name),
    points: overSpeed(curve.points, value),
    colour: seriesColour(index),
    shape: seriesShape(index),
    marked: true,
    far: FAR_RPM,
  };
}

/** Shifted once the colours are used up, so that no two of twenty-four series look alike. */
export const seriesShape = (index: number): Shape =>
  SHAPES[(index + Math.floor(index / SERIES.length)) % SHAPES.length];

export const seriesColour = (index: number): Colour => SERIES[index % SERIES.length];

/** Longest name in a legend [letters]. */
const LONGEST_NAME = 48;

/** A name from a file, short enough for a legend and on one line. Of a long path the end says what it is. */
export function seriesName(name: string): string {
  // `Headers of 1-7/8 in` is no path.
  const isPath = /[/\\][^/\\]*\.[a-z]{2,5}$/iu.test(name);
  const file = name.slice(name.search(/[^/\\]*$/u));
  return plainShort(name.length > LONGEST_NAME && isPath ? file : name, LONGEST_NAME);
}

/** The curve that others are held against, where it stands in each small plot. */
export function referenceLine({ name, curve }: NamedCurve, value: (point: MarchedPoint) => number): Layer {
  return {
    kind: 'line',
    name: seriesName(name),
    points: overSpeed(curve.points, value),
    colour: 'soft',
    far: FAR_RPM,
  };
}
