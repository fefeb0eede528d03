/** A plot as a Vega specification. */
import type { Data, Mark, Scale, Spec, Axis as VegaAxis } from 'vega';
import { marksOf, partsOf } from './layerMarks.ts';
import { LEGEND_ROW, legendOf } from './legend.ts';
import { colour } from './palette.ts';
import type { Axis, Layer, Plot, Size } from './plot.ts';

/** Room around the plot: figures of the axes, their titles. The upright axis has its title above it, which saves width. */
export const LEFT = 50;
export const RIGHT = 18;
export const BOTTOM = 50;
export const TITLE_ROW = 24;

export function plotSpec({ x, y, layers: named }: Plot, { width, height }: Size): Spec {
  const inner = width - LEFT - RIGHT;
  const legend = legendOf(named, width - 4);
  const layers = named.flatMap(partsOf);
  const top = TITLE_ROW + legend.rows * LEGEND_ROW + (legend.rows > 0 ? 4 : 0);
  const xRange = rangeOf(layers, 'x');
  return {
    width: inner,
    height: height - TITLE_ROW - BOTTOM,
    padding: { left: LEFT, right: RIGHT, top, bottom: BOTTOM },
    // Nothing is measured: sizes depend on the data alone, and all plots of a page line up.
    autosize: 'none',
    data: layers.map((layer, i) => dataOf(layer, `layer${i}`)),
    scales: [scaleOf('x', x, xRange), scaleOf('y', y, rangeOf(layers, 'y'))],
    axes: [
      {
        ...axisOf('bottom', 'x', x, Math.max(3, Math.round(width / 90))),
        ...(xRange[1] >= FIVE_DIGITS ? { labelFlush: true } : {}),
      },
      {
        ...levelsOf(y, Y_TICKS),
        ...(y.log === true ? { values: roundValues(rangeOf(layers, 'y')) } : {}),
      },
    ],
    marks: [
      ...layersMarks(layers, (i) => `layer${i}`, xRange),
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
/** From here on half of the last figure is wider than the room to the right of the plot. */
const FIVE_DIGITS = 10_000;

/** All layers, notes last, over everything else. */
export function layersMarks(
  layers: readonly Layer[],
  dataName: (i: number) => string,
  xRange: readonly [number, number],
): Mark[] {
  return [...layers.keys()]
    .sort((i, j) => Number(layers[i].kind === 'note') - Number(layers[j].kind === 'note'))
    .flatMap((i) => marksOf(layers[i], dataName(i), xRange));
}

/** The upright axis: figures and lines across, no more. */
export function levelsOf(axis: Axis, ticks: number): VegaAxis {
  // Marks at the first speed stand half outside, and not on the figures.
  return { ...axisOf('left', 'y', axis, ticks), grid: true, domain: false, ticks: false, labelPadding: 9 };
}

/** 1, 2, 5, 10, 20 ... within a range above zero. */
function roundValues([low, high]: readonly [number, number]): number[] {
  const decades = Array.from(
    { length: Math.ceil(Math.log10(high)) - Math.floor(Math.log10(low)) + 1 },
    (_, i) => Math.floor(Math.log10(low)) + i,
  );
  return decades.flatMap((power) => [1, 2, 5].map((digit) => digit * 10 ** power));
}

export function words(text: string, place: Record<string, unknown>): Mark {
  return {
    type: 'text',
    encode: { enter: { ...place, text: { value: text }, fill: { value: colour('soft') } } },
  };
}

export function dataOf(layer: Layer, name: string): Data {
  const values =
    layer.kind === 'line' || layer.kind === 'ribbon' || layer.kind === 'dots'
      ? layer.points
      : layer.kind === 'bars'
        ? layer.bars
        : [{}];
  return { name, values: values.map((value) => ({ ...value })) };
}

/** Least and greatest value drawn; a single value gets room on both sides. */
export function rangeOf(layers: readonly Layer[], axis: 'x' | 'y'): readonly [number, number] {
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

export function scaleOf(name: 'x' | 'y', axis: Axis, drawn: readonly [number, number]): Scale {
  const range = name === 'x' ? 'width' : 'height';
  const domain = axis.domain ?? widened(axis, drawn);
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

/** What is drawn, with the room that the axis has to span. */
function widened(
  { least = 0, zero }: Axis,
  [low, high]: readonly [number, number],
): readonly [number, number] {
  if (high - low >= least) return [low, high];
  if (zero === true && low >= 0) return [low, Math.max(high, least)];
  const middle = (low + high) / 2;
  return [middle - least / 2, middle + least / 2];
}

export function axisOf(orient: 'bottom' | 'left', scale: 'x' | 'y', axis: Axis, ticks: number): VegaAxis {
  return {
    orient,
    scale,
    tickCount: axis.log === true ? 4 : ticks,
    // A scale that is rounded up ends on a number, which would stand half beyond the edge of a telephone.
    ...(orient === 'bottom' && axis.zero === true ? { labelFlush: true } : {}),
    ...(axis.log === true ? { format: '~f' } : axis.whole === true ? { format: 'd' } : {}),
  };
}
