/** What the charts over engine speed share: their axis, their series and their tables. */
import type { Curve, MarchedPoint, OperatingPoint } from '@valvetide/core';
import { marched, markedSpeed } from '../../render/marched.ts';
import { plainShort } from '../../render/plain.ts';
import type { Column } from '../../render/table.ts';
import { type Colour, SERIES } from '../draw/palette.ts';
import type { Axis, Dash, Layer, Point } from '../draw/plot.ts';

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

const DASHES: readonly Dash[] = ['solid', 'dashed', 'dotted'];

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
    dash: seriesDash(index),
    marked: true,
  };
}

/** Shifted once the colours are used up, so that no two of eighteen series look alike. */
export const seriesDash = (index: number): Dash =>
  DASHES[(index + Math.floor(index / SERIES.length)) % DASHES.length];

export const seriesColour = (index: number): Colour => SERIES[index % SERIES.length];

/** A name from a file, short enough for a legend and on one line. */
export const seriesName = (name: string): string => plainShort(name, 40);
