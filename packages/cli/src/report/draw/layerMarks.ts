/** The marks of a plot's layers. */
import type { Mark } from 'vega';
import { dotOf, strokeOf, washOf } from './paint.ts';
import { colour } from './palette.ts';
import type { Layer, Point } from './plot.ts';

/** A line over a stretch where nothing is known. */
const FAR = { strokeWidth: { value: 1.75 }, strokeDash: { value: [6, 5] } };

type LineLayer = Extract<Layer, { kind: 'line' }>;
/** A layer, or a piece of a line that only joins points far apart. */
export type Part = Layer & { readonly joins?: boolean };

/** A line in its pieces: between neighbours, and across the stretches between points that lie far apart. */
export function partsOf(layer: Layer): readonly Part[] {
  if (layer.kind !== 'line' || layer.far === undefined) return [layer];
  const { far, points } = layer;
  const isFar = (i: number): boolean => points[i].x - points[i - 1].x > far;
  const runs: Point[][] = [];
  const joins: Part[] = [];
  points.forEach((point, i) => {
    if (i > 0 && isFar(i))
      joins.push({ ...layer, points: [points[i - 1], point], marked: false, joins: true });
    if (i === 0 || isFar(i)) runs.push([point]);
    else runs[runs.length - 1].push(point);
  });
  return [...joins, ...runs.map((run): LineLayer => ({ ...layer, points: run }))];
}

const at = (scale: 'x' | 'y', field: string) => ({ scale, field });

/** Places and looks of a mark. */
type Enter = NonNullable<NonNullable<Mark['encode']>['enter']>;

/** The marks of a layer whose points stand in the data of that name. */
export function marksOf(layer: Part, data: string, xRange: readonly [number, number]): Mark[] {
  const from = { data };
  switch (layer.kind) {
    case 'line':
      return lineMarks(layer, data);
    case 'ribbon':
      return [{ type: 'area', clip: true, from, encode: { enter: ribbonPlace(layer) } }];
    case 'dots':
      return [
        { type: 'symbol', from, encode: { enter: { x: at('x', 'x'), y: at('y', 'y'), ...dotOf(layer) } } },
      ];
    case 'span':
      return [{ type: 'rect', clip: true, encode: { enter: spanPlace(layer) } }];
    case 'rule':
      return [{ type: 'rule', clip: true, encode: { enter: rulePlace(layer) } }];
    case 'bars':
      return [{ type: 'rect', clip: true, from, encode: { enter: barPlace(layer) } }];
    case 'note':
      return noteMarks(layer, xRange);
  }
}

type Kind<Name extends Layer['kind']> = Extract<Part, { readonly kind: Name }>;

function lineMarks(layer: Kind<'line'>, data: string): Mark[] {
  const from = { data };
  const line: Mark = {
    type: 'line',
    clip: true,
    from,
    encode: {
      enter: {
        x: at('x', 'x'),
        y: at('y', 'y'),
        ...strokeOf(layer),
        strokeJoin: { value: 'round' },
        ...(layer.joins === true ? FAR : {}),
      },
    },
  };
  const marks: Mark = {
    type: 'symbol',
    from,
    encode: {
      enter: {
        x: at('x', 'x'),
        y: at('y', 'y'),
        shape: { value: layer.shape ?? 'circle' },
        size: { value: layer.shape === undefined ? 22 : 44 },
        fill: { value: colour(layer.colour) },
      },
    },
  };
  return layer.marked === true || layer.points.length === 1 ? [line, marks] : [line];
}

function ribbonPlace(layer: Kind<'ribbon'>): Enter {
  return { x: at('x', 'x'), y: at('y', 'low'), y2: at('y', 'high'), ...washOf(layer) };
}

function spanPlace(layer: Kind<'span'>): Enter {
  return {
    x: { scale: 'x', value: layer.from },
    x2: { scale: 'x', value: layer.to },
    y: { value: 0 },
    y2: { signal: 'height' },
    ...washOf(layer),
  };
}

/** Across the whole drawing where it stands at one value of the other axis. */
function rulePlace(layer: Kind<'rule'>): Enter {
  return {
    x: layer.x === undefined ? { value: 0 } : { scale: 'x', value: layer.x },
    x2: layer.x === undefined ? { signal: 'width' } : { scale: 'x', value: layer.x },
    y: layer.y === undefined ? { value: 0 } : { scale: 'y', value: layer.y },
    y2: layer.y === undefined ? { signal: 'height' } : { scale: 'y', value: layer.y },
    ...strokeOf(layer),
  };
}

function barPlace(layer: Kind<'bars'>): Enter {
  return {
    x: at('x', 'from'),
    x2: at('x', 'to'),
    y: at('y', 'y'),
    y2: { scale: 'y', value: 0 },
    ...washOf(layer),
  };
}

/** Words at a point, twice: a ground under the letters keeps them readable across a line. */
function noteMarks(layer: Kind<'note'>, xRange: readonly [number, number]): Mark[] {
  // Away from the nearer edge, so that the words stay within the frame.
  const share = (layer.x - xRange[0]) / (xRange[1] - xRange[0]);
  const align = share > 0.7 ? 'right' : share < 0.3 ? 'left' : 'center';
  const place = {
    x: { scale: 'x', value: layer.x },
    y: { scale: 'y', value: layer.y, offset: layer.side === 'above' ? -9 : 18 },
    text: { value: layer.text },
    align: { value: align },
    fontWeight: { value: 600 },
  } as const;
  const ground = {
    stroke: { value: 'var(--paper)' },
    strokeWidth: { value: 5 },
    strokeJoin: { value: 'round' },
  } as const;
  return [
    { type: 'text', encode: { enter: { ...place, ...ground, fill: { value: 'var(--paper)' } } } },
    { type: 'text', encode: { enter: { ...place, fill: { value: colour(layer.colour) } } } },
  ];
}
