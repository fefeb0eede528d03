/** A plot as a Vega specification. */
import type { Data, Mark, Scale, Spec, Axis as VegaAxis } from 'vega';
import { LEGEND_ROW, legendOf } from './legend.ts';
import { colour, wash } from './palette.ts';
import { type Axis, DASHES, type Layer, type Plot, type Size } from './plot.ts';

/** Room around the plot: figures of the axes, their titles. The upright axis has its title above it, which saves width. */
const LEFT = 50;
const RIGHT = 18;
const BOTTOM = 50;
const TITLE_ROW = 24;

export function plotSpec({ x, y, layers }: Plot, { width, height }: Size): Spec {
  const inner = width - LEFT - RIGHT;
  const legend = legendOf(layers, width - 4);
  const top = TITLE_ROW + legend.rows * LEGEND_ROW + (legend.rows > 0 ? 4 : 0);
  const xRange = rangeOf(layers, 'x');
  return {
    width: inner,
    height: height - TITLE_ROW - BOTTOM,
    padding: { left: LEFT, right: RIGHT, top, bottom: BOTTOM },
    // Nothing is measured: sizes depend on the data alone, and all plots of a page line up.
    autosize: 'none',
    data: layers.map(dataOf),
    scales: [scaleOf('x', x, xRange), scaleOf('y', y, rangeOf(layers, 'y'))],
    axes: [
      axisOf('bottom', 'x', x, Math.max(3, Math.round(width / 90))),
      {
        ...axisOf('left', 'y', y, Y_TICKS),
        ...(y.log === true ? { values: roundValues(rangeOf(layers, 'y')) } : {}),
        grid: true,
        domain: false,
        ticks: false,
      },
    ],
    marks: [
      // Notes last, over everything else.
      ...[...layers.keys()]
        .sort((i, j) => Number(layers[i].kind === 'note') - Number(layers[j].kind === 'note'))
        .flatMap((i) => marksOf(layers[i], `layer${i}`, xRange)),
      ...legend.marks(2 - LEFT, -top),
      words(y.title, { x: { value: 2 - LEFT }, y: { value: -11 } }),
      words(x.title, {
        x: { signal: 'width / 2' },
        y: { signal: `height + ${BOTTOM - 8}` },
        align: { value: 'center' },
      }),
    ],
  };
}

const Y_TICKS = 6;

/** 1, 2, 5, 10, 20 ... within a range above zero. */
function roundValues([low, high]: readonly [number, number]): number[] {
  const decades = Array.from(
    { length: Math.ceil(Math.log10(high)) - Math.floor(Math.log10(low)) + 1 },
    (_, i) => Math.floor(Math.log10(low)) + i,
  );
  return decades.flatMap((power) => [1, 2, 5].map((digit) => digit * 10 ** power));
}

function words(text: string, place: Record<string, unknown>): Mark {
  return {
    type: 'text',
    encode: { enter: { ...place, text: { value: text }, fill: { value: colour('soft') } } },
  };
}

function dataOf(layer: Layer, i: number): Data {
  const values =
    layer.kind === 'line' || layer.kind === 'ribbon' || layer.kind === 'dots'
      ? layer.points
      : layer.kind === 'bars'
        ? layer.bars
        : [{}];
  return { name: `layer${i}`, values: values.map((value) => ({ ...value })) };
}

/** Least and greatest value drawn; a single value gets room on both sides. */
function rangeOf(layers: readonly Layer[], axis: 'x' | 'y'): readonly [number, number] {
  const values = layers.flatMap((layer): readonly number[] => {
    switch (layer.kind) {
      case 'line':
      case 'dots':
        return layer.points.map((point) => point[axis]);
      case 'ribbon':
        return layer.points.flatMap((p) => (axis === 'x' ? [p.x] : [p.low, p.high]));
      case 'bars':
        return layer.bars.flatMap((bar) => (axis === 'x' ? [bar.from, bar.to] : [0, bar.y]));
      case 'rule':
        return axis === 'y' && layer.y !== undefined ? [layer.y] : [];
      default:
        return [];
    }
  });
  const low = Math.min(...values);
  const high = Math.max(...values);
  if (!(low < high)) {
    const middle = Number.isFinite(low) ? low : 0;
    const room = Math.abs(middle) * 0.05 || 1;
    return [middle - room, middle + room];
  }
  return [low, high];
}

function scaleOf(name: 'x' | 'y', axis: Axis, [low, high]: readonly [number, number]): Scale {
  const range = name === 'x' ? 'width' : 'height';
  const domain = [...(axis.domain ?? [low, high])];
  const free = axis.domain === undefined;
  if (axis.log === true) {
    const room = free ? 1.3 : 1;
    return { name, type: 'log', base: 10, domain: [domain[0] / room, domain[1] * room], range };
  }
  // Speeds and angles end where the data ends; amounts go up to a round number.
  const room = name === 'y' && free ? (domain[1] - domain[0]) * 0.06 : 0;
  return {
    name,
    type: 'linear',
    domain: [domain[0], domain[1] + room],
    range,
    zero: axis.zero ?? false,
    nice: free && (name === 'y' || axis.zero === true) ? Y_TICKS : false,
  };
}

function axisOf(orient: 'bottom' | 'left', scale: 'x' | 'y', axis: Axis, ticks: number): VegaAxis {
  return {
    orient,
    scale,
    tickCount: axis.log === true ? 4 : ticks,
    // A scale that is rounded up ends on a number, which would stand half beyond the edge of a telephone.
    ...(orient === 'bottom' && axis.zero === true ? { labelFlush: true } : {}),
    ...(axis.log === true ? { format: '~f' } : axis.whole === true ? { format: 'd' } : {}),
  };
}

const at = (scale: 'x' | 'y', field: string) => ({ scale, field });

function marksOf(layer: Layer, data: string, xRange: readonly [number, number]): Mark[] {
  const from = { data };
  switch (layer.kind) {
    case 'line': {
      const stroke = { value: colour(layer.colour) };
      const line: Mark = {
        type: 'line',
        clip: true,
        from,
        encode: {
          enter: {
            x: at('x', 'x'),
            y: at('y', 'y'),
            stroke,
            strokeWidth: { value: 2.5 },
            strokeJoin: { value: 'round' },
            strokeDash: { value: [...DASHES[layer.dash ?? 'solid']] },
          },
        },
      };
      const marks: Mark = {
        type: 'symbol',
        from,
        encode: {
          enter: { x: at('x', 'x'), y: at('y', 'y'), size: { value: 22 }, fill: stroke },
        },
      };
      return layer.marked === true || layer.points.length === 1 ? [line, marks] : [line];
    }
    case 'ribbon':
      return [
        {
          type: 'area',
          clip: true,
          from,
          encode: {
            enter: {
              x: at('x', 'x'),
              y: at('y', 'low'),
              y2: at('y', 'high'),
              fill: { value: wash(layer.colour) },
            },
          },
        },
      ];
    case 'dots':
      return [
        {
          type: 'symbol',
          from,
          encode: {
            enter: {
              x: at('x', 'x'),
              y: at('y', 'y'),
              shape: { value: layer.shape },
              size: { value: 55 },
              fill: { value: 'var(--paper)' },
              stroke: { value: colour(layer.colour) },
              strokeWidth: { value: 2 },
            },
          },
        },
      ];
    case 'span':
      return [
        {
          type: 'rect',
          clip: true,
          encode: {
            enter: {
              x: { scale: 'x', value: layer.from },
              x2: { scale: 'x', value: layer.to },
              y: { value: 0 },
              y2: { signal: 'height' },
              fill: { value: wash('soft') },
            },
          },
        },
      ];
    case 'rule':
      return [
        {
          type: 'rule',
          clip: true,
          encode: {
            enter: {
              x: layer.x === undefined ? { value: 0 } : { scale: 'x', value: layer.x },
              x2: layer.x === undefined ? { signal: 'width' } : { scale: 'x', value: layer.x },
              y: layer.y === undefined ? { value: 0 } : { scale: 'y', value: layer.y },
              y2: layer.y === undefined ? { signal: 'height' } : { scale: 'y', value: layer.y },
              stroke: { value: colour(layer.colour) },
              strokeWidth: { value: 1.5 },
              strokeDash: { value: [...DASHES[layer.dash ?? 'solid']] },
            },
          },
        },
      ];
    case 'bars':
      return [
        {
          type: 'rect',
          clip: true,
          from,
          encode: {
            enter: {
              x: at('x', 'from'),
              x2: at('x', 'to'),
              y: at('y', 'y'),
              y2: { scale: 'y', value: 0 },
              fill: { value: wash(layer.colour) },
              stroke: { value: colour(layer.colour) },
              strokeWidth: { value: 1 },
            },
          },
        },
      ];
    case 'note': {
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
      // A ground under the letters keeps them readable across a line.
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
  }
}
